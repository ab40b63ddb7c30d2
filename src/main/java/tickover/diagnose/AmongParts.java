package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Sets {@link Clue#AMONG_PARTS}: how a suspect stands against the same of the other parts. */
final class AmongParts {
    private static final double MOST = 2;
    private static final double SAME_LINE_RATIO = 0.007;

    /** From here on a place speaks for a part, in tens of decibels. */
    private static final double CLAIM_PLACE = 0.2;

    private AmongParts() {}

    static List<SuspectClues> compare(List<SuspectClues> suspects) {
        List<SuspectClues> out = new ArrayList<>();
        for (SuspectClues s : suspects) {
            s.clues()
                    .set(Clue.AMONG_PARTS, Math.max(-MOST, Math.min(MOST, advantage(s, suspects))));
            s.clues().set(Clue.CLAIMED, isClaimed(s, suspects) ? 1 : 0);
            out.add(s);
        }
        return out;
    }

    private static double advantage(SuspectClues s, List<SuspectClues> all) {
        return switch (s.suspect().group()) {
            case BEARING_LINE, UNKNOWN_BEARING, LOOSE, BELT -> rhythm(s) - strongestRival(s, all);
            case ROUGH, ECCENTRIC -> (s.clue(Clue.LEVEL) - medianOfGroup(s, all)) * 2;
            case INJECTOR_TICK, VALVE_TICK -> (s.clue(Clue.LEVEL) - bestOfTicks(s, all)) * 2;
        };
    }

    private static double rhythm(SuspectClues s) {
        return s.clue(Clue.RHYTHM) + s.clue(Clue.RHYTHM_STRONG);
    }

    private static double strongestRival(SuspectClues s, List<SuspectClues> all) {
        double best = -1;
        for (SuspectClues other : all) {
            boolean alike = other.suspect().group() == s.suspect().group();
            if (alike && !sameComponent(other, s)) {
                best = Math.max(best, rhythm(other));
            }
        }
        return best;
    }

    private static double medianOfGroup(SuspectClues s, List<SuspectClues> all) {
        double[] levels =
                all.stream()
                        .filter(o -> o.suspect().group() == s.suspect().group())
                        .filter(o -> !sameComponent(o, s) && !sameLine(o, s))
                        .mapToDouble(o -> o.clue(Clue.LEVEL))
                        .sorted()
                        .toArray();
        return levels.length == 0 ? s.clue(Clue.LEVEL) : levels[levels.length / 2];
    }

    /** Another part, strongest at its own point, explains the line better than this one can. */
    private static boolean isClaimed(SuspectClues s, List<SuspectClues> all) {
        if (s.suspect().fault() == Fault.TICK) {
            return false;
        }
        return all.stream()
                .anyMatch(
                        o ->
                                !sameComponent(o, s)
                                        && family(o) == family(s)
                                        && sameLine(o, s)
                                        && o.clue(Clue.OUT_OF_REACH) == 0
                                        && o.clue(Clue.PLACE) > CLAIM_PLACE
                                        && (s.clue(Clue.OUT_OF_REACH) == 1
                                                || s.clue(Clue.PLACE) + CLAIM_PLACE
                                                        < o.clue(Clue.PLACE)));
    }

    /** Lines of bearings are rivals whether their internals are known or not. */
    private static FaultGroup family(SuspectClues s) {
        FaultGroup group = s.suspect().group();
        return group == FaultGroup.UNKNOWN_BEARING ? FaultGroup.BEARING_LINE : group;
    }

    /** Two suspects that took hold of the same line are no two parts with a level each. */
    private static boolean sameLine(SuspectClues a, SuspectClues b) {
        return Math.abs(a.foundOrders() / b.foundOrders() - 1) < SAME_LINE_RATIO;
    }

    private static boolean sameComponent(SuspectClues a, SuspectClues b) {
        return a.suspect().component().equals(b.suspect().component());
    }

    private static double bestOfTicks(SuspectClues s, List<SuspectClues> all) {
        return Arrays.stream(
                        all.stream()
                                .filter(
                                        o ->
                                                o.suspect().fault() == Fault.TICK
                                                        && !sameComponent(o, s)
                                                        && o.clue(Clue.OUT_OF_REACH) == 0)
                                .mapToDouble(o -> o.clue(Clue.LEVEL))
                                .toArray())
                .max()
                .orElse(s.clue(Clue.LEVEL));
    }
}

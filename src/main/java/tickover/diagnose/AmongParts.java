package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;

/** Sets {@link Clue#AMONG_PARTS}: how a suspect stands against the same of the other parts. */
final class AmongParts {
    private static final double MOST = 2;
    private static final double SAME_LINE_RATIO = 0.007;

    /** From here on a rhythm can claim another's line; clear is 1. */
    private static final double CLAIM_RHYTHM = 0.5;

    private static final int MOST_MULTIPLE = 5;

    private AmongParts() {}

    static List<SuspectClues> compare(List<SuspectClues> suspects) {
        List<SuspectClues> out = new ArrayList<>();
        for (SuspectClues s : suspects) {
            if (s.suspect().group() == FaultGroup.ROUGH) {
                out.add(s);
                continue;
            }
            s.clues()
                    .set(Clue.AMONG_PARTS, Math.max(-MOST, Math.min(MOST, advantage(s, suspects))));
            s.clues().set(Clue.CLAIMED, claim(s, suspects));
            out.add(s);
        }
        return out;
    }

    private static double advantage(SuspectClues s, List<SuspectClues> all) {
        return switch (s.suspect().group()) {
            case BEARING_LINE, UNKNOWN_BEARING, LOOSE, BELT -> rhythm(s) - strongestRival(s, all);
            case ECCENTRIC -> (s.clue(Clue.LEVEL) - medianOfGroup(s, all)) * 2;
            case ROUGH -> s.clue(Clue.AMONG_PARTS);
            case INJECTOR_TICK, VALVE_TICK -> s.clue(Clue.SLOTS) / 2 - bestOfTicks(s, all);
        };
    }

    /** At the own point if that was recorded, else elsewhere; clear is about 1. */
    private static double rhythm(SuspectClues s) {
        return s.clue(Clue.OUT_OF_REACH) > 0
                ? s.clue(Clue.RHYTHM_ELSEWHERE)
                : s.clue(Clue.RHYTHM) + 2 * s.clue(Clue.RHYTHM_STRONG);
    }

    private static double strongestRival(SuspectClues s, List<SuspectClues> all) {
        double best = -1;
        for (SuspectClues other : all) {
            boolean alike = family(other) == family(s);
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
                        .filter(o -> !sameComponent(o, s) && o.clue(Clue.OUT_OF_REACH) == 0)
                        .filter(o -> !sameLine(o, s))
                        .mapToDouble(o -> o.clue(Clue.LEVEL))
                        .sorted()
                        .toArray();
        return levels.length == 0 ? s.clue(Clue.LEVEL) : levels[levels.length / 2];
    }

    /**
     * How much better another part, recorded at its own point, explains the line by its place: a
     * line of the same order, or of a simple multiple or fraction of it.
     */
    private static double claim(SuspectClues s, List<SuspectClues> all) {
        boolean own = s.clue(Clue.OUT_OF_REACH) == 0;
        double there = own ? s.clue(Clue.RHYTHM) : s.clue(Clue.RHYTHM_ELSEWHERE);
        if (!isTrain(s) || there <= 0) {
            return 0;
        }
        double best = 0;
        for (SuspectClues o : all) {
            boolean rival =
                    !sameComponent(o, s)
                            && (isTrain(o) || o.suspect().group() == FaultGroup.ROUGH)
                            && o.clue(Clue.OUT_OF_REACH) == 0
                            && o.clue(Clue.RHYTHM) > CLAIM_RHYTHM
                            && isMultiple(o, s);
            if (rival) {
                double place = own ? s.clue(Clue.PLACE) : 0;
                best = Math.max(best, o.clue(Clue.PLACE) - place);
            }
        }
        return Math.min(MOST, best) * Math.min(1, there);
    }

    private static boolean isTrain(SuspectClues s) {
        return switch (s.suspect().group()) {
            case BEARING_LINE, UNKNOWN_BEARING, LOOSE, BELT -> true;
            case ROUGH, ECCENTRIC, INJECTOR_TICK, VALVE_TICK -> false;
        };
    }

    private static boolean isMultiple(SuspectClues a, SuspectClues b) {
        double ratio =
                Math.max(a.foundOrders() / b.foundOrders(), b.foundOrders() / a.foundOrders());
        return ratio < MOST_MULTIPLE + 0.5
                && Math.abs(ratio - Math.rint(ratio)) < SAME_LINE_RATIO * ratio;
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
        return all.stream()
                .filter(o -> o.suspect().fault() == Fault.TICK && !sameComponent(o, s))
                .mapToDouble(o -> o.clue(Clue.SLOTS) / 2)
                .max()
                .orElse(0);
    }
}

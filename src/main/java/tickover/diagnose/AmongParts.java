package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;

/** Sets {@link Clue#AMONG_PARTS}: how a suspect stands against the same of the other parts. */
final class AmongParts {
    private static final double MOST = 2;
    private static final double SAME_LINE_RATIO = 0.007;

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
            out.add(s);
        }
        return out;
    }

    private static double advantage(SuspectClues s, List<SuspectClues> all) {
        return switch (s.suspect().group()) {
            case BEARING_LINE, UNKNOWN_BEARING, ENGINE_BEARING, LOOSE, BELT ->
                    rhythm(s) - strongestRival(s, all);
            case ECCENTRIC -> (s.clue(Clue.SHAKE) - medianOfGroup(s, all)) * 2;
            case ROUGH -> s.clue(Clue.AMONG_PARTS);
            case INJECTOR_TICK, VALVE_TICK, ENGINE_KNOCK ->
                    s.clue(Clue.SLOTS) / 2 - bestOfTicks(s, all);
        };
    }

    /** How clear its rhythm is; clear is 1. */
    private static double rhythm(SuspectClues s) {
        return s.clue(Clue.COMB);
    }

    private static double strongestRival(SuspectClues s, List<SuspectClues> all) {
        double best = 0;
        for (SuspectClues other : all) {
            boolean alike = family(other) == family(s) && !sameLine(other, s);
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
                        .mapToDouble(o -> o.clue(Clue.SHAKE))
                        .sorted()
                        .toArray();
        return levels.length == 0 ? s.clue(Clue.SHAKE) : levels[levels.length / 2];
    }

    /** Lines of bearings are rivals whether their internals are known or not. */
    private static FaultGroup family(SuspectClues s) {
        FaultGroup group = s.suspect().group();
        return group.isWide() ? FaultGroup.BEARING_LINE : group;
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
                .filter(o -> o.suspect().group().isOfCycle() && !sameComponent(o, s))
                .mapToDouble(o -> o.clue(Clue.SLOTS) / 2)
                .max()
                .orElse(0);
    }
}

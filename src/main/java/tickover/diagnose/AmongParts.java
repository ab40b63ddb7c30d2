package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Sets {@link Clue#AMONG_PARTS}: how a suspect stands against the same of the other parts. */
final class AmongParts {
    private static final double MOST = 2;

    private AmongParts() {}

    static List<SuspectClues> compare(List<SuspectClues> suspects) {
        List<SuspectClues> out = new ArrayList<>();
        for (SuspectClues s : suspects) {
            s.clues()
                    .set(Clue.AMONG_PARTS, Math.max(-MOST, Math.min(MOST, advantage(s, suspects))));
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
            boolean rhythmic =
                    switch (other.suspect().group()) {
                        case BEARING_LINE, LOOSE, BELT -> true;
                        case UNKNOWN_BEARING, ROUGH, ECCENTRIC, INJECTOR_TICK, VALVE_TICK -> false;
                    };
            if (rhythmic && !other.suspect().component().equals(s.suspect().component())) {
                best = Math.max(best, rhythm(other));
            }
        }
        return best;
    }

    private static double medianOfGroup(SuspectClues s, List<SuspectClues> all) {
        double[] levels =
                all.stream()
                        .filter(o -> o.suspect().group() == s.suspect().group())
                        .filter(o -> !o.suspect().component().equals(s.suspect().component()))
                        .mapToDouble(o -> o.clue(Clue.LEVEL))
                        .sorted()
                        .toArray();
        return levels.length == 0 ? s.clue(Clue.LEVEL) : levels[levels.length / 2];
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

package tickover.cli;

import tickover.diagnose.BenchPattern;
import tickover.diagnose.BenchVerdict;

/** Says in one sentence what one pattern of a bearing's fault means. */
final class BenchSentence {
    /** Chance shows more than this often enough to be left unsaid as evidence. */
    private static final double BY_CHANCE = 0.05;

    private BenchSentence() {}

    static String of(BenchPattern pattern) {
        String rhythm =
                what(pattern.fault()) + ", " + Prose.fixed(pattern.orderFound(), 3) + " per turn,";
        if (!(pattern.falseAlarmProbability() < BY_CHANCE)) {
            return rhythm + " does not stand out.";
        }
        return rhythm
                + " stands out: "
                + chance(pattern.falseAlarmProbability())
                + "; the ringing swells and fades with it by "
                + Prose.percent(Math.min(1, pattern.modulationRatio()))
                + " of its mean.";
    }

    private static String chance(double probability) {
        double shown = 1e6;
        if (!(probability * shown > 1)) {
            return "chance shows as much in fewer than one of a million records";
        }
        return "chance shows as much in one of " + Math.round(1 / probability) + " records";
    }

    private static String what(String fault) {
        if (fault.equals(BenchVerdict.OUTER_RING.word())) {
            return "The rhythm of balls passing one spot of the outer ring";
        }
        if (fault.equals(BenchVerdict.INNER_RING.word())) {
            return "The rhythm of balls passing one spot of the inner ring";
        }
        if (fault.equals(BenchVerdict.ROLLING_ELEMENT.word())) {
            return "The rhythm of one ball's spot striking both rings";
        }
        return "The rhythm of the cage";
    }
}

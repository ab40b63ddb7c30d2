package tickover.report;

import java.util.Locale;
import tickover.diagnose.BenchFinding;
import tickover.diagnose.BenchPattern;
import tickover.diagnose.BenchResult;
import tickover.diagnose.BenchVerdict;
import tickover.diagnose.Fault;

/** Says a bench's result in a mechanic's words. */
public final class BenchWords {
    /** Chance shows more than this often enough to be left unsaid as evidence. */
    private static final double BY_CHANCE = 0.05;

    private BenchWords() {}

    /**
     * Sums a result up.
     *
     * @param result the result
     * @return one sentence
     */
    public static String headline(BenchResult result) {
        boolean rough =
                result.findings().stream()
                        .anyMatch(
                                f ->
                                        f.fault() == Fault.BEARING_ROUGH
                                                && f.state() != BenchFinding.State.NOT_SEEN);
        if (result.verdict() == BenchVerdict.UNCLEAR && rough) {
            return "No single spot, but perhaps rough or dry: not to be called sound.";
        }
        return switch (result.verdict()) {
            case HEALTHY -> "Sound: no pattern that a fault would make.";
            case OUTER_RING -> "Damaged outer ring.";
            case INNER_RING -> "Damaged inner ring.";
            case ROLLING_ELEMENT -> "Damaged ball or roller.";
            case CAGE -> "Damaged or loose cage.";
            case UNCLEAR -> "The record does not decide.";
        };
    }

    /**
     * Says how a question beside the verdict was answered.
     *
     * @param finding the answer
     * @return such as "Play: no sign"
     */
    public static String answer(BenchFinding finding) {
        String name =
                finding.fault() == Fault.ECCENTRIC
                        ? "Out of true"
                        : finding.fault() == Fault.LOOSE ? "Play" : "Rough or dry";
        return switch (finding.state()) {
            case SEEN -> name + ": YES";
            case POSSIBLE -> name + ": possible";
            case NOT_SEEN -> name + ": no sign";
        };
    }

    /**
     * Says what one pattern of a bearing's fault means.
     *
     * @param pattern the pattern
     * @return one sentence
     */
    public static String of(BenchPattern pattern) {
        String rhythm =
                what(pattern.fault())
                        + String.format(Locale.ROOT, ", %.3f per turn,", pattern.orderFound());
        if (!(pattern.falseAlarmProbability() < BY_CHANCE)) {
            return rhythm + " does not stand out.";
        }
        return rhythm
                + " stands out: "
                + chance(pattern.falseAlarmProbability())
                + "; the ringing swells and fades with it by "
                + String.format(
                        Locale.ROOT, "%.0f %%", 100 * Math.min(1, pattern.modulationRatio()))
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

package tickover.report;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import tickover.diagnose.Candidate;
import tickover.diagnose.EvidenceKind;
import tickover.diagnose.Fault;
import tickover.diagnose.Findings;
import tickover.diagnose.PartChange;
import tickover.diagnose.QualityProblem;
import tickover.drive.PartLine;
import tickover.drive.PartWords;

/** Says findings in a mechanic's words. */
public final class Wording {
    /** A reason that makes a part ten times as likely weighs heavily, one of twice something. */
    private static final double HEAVY_DB = 10;

    private static final double SOME_DB = 3;

    /** A sure answer to an even question is one bit. */
    private static final double MUCH_BITS = 0.3;

    static final double SOME_BITS = 0.08;

    /** Below this a candidate is not worth a line of its own. */
    private static final double WORTH_NAMING = 0.005;

    /** Trade habit for trends: a factor of two is worth a look, a factor of ten is serious. */
    private static final double LOOK_DB = 6.02;

    private static final double SERIOUS_DB = 20;

    private Wording() {}

    /**
     * Names a component as one would say it.
     *
     * @param component as in {@link Candidate#component}
     * @return such as "the idler" or "injector 2"
     */
    public static String component(String component) {
        Objects.requireNonNull(component, "component");
        return switch (component) {
            case Candidate.NONE -> "nothing out of the ordinary";
            case PartLine.ENGINE -> "the engine itself";
            default -> PartWords.the(component);
        };
    }

    /**
     * Says what is wrong.
     *
     * @param fault the fault
     * @return a phrase that can follow a colon
     */
    public static String fault(Fault fault) {
        return switch (fault) {
            case BEARING_OUTER_RING -> "a damaged spot on the outer ring of its bearing";
            case BEARING_INNER_RING -> "a damaged spot on the inner ring of its bearing";
            case ROLLING_ELEMENT -> "a damaged ball or roller in its bearing";
            case CAGE -> "a damaged or loose cage in its bearing";
            case BEARING_ROUGH -> "its bearing is dry or worn all over";
            case ECCENTRIC -> "it does not run true";
            case LOOSE -> "it has play and knocks";
            case BELT_DAMAGE -> "a damaged place that comes round once per belt turn";
            case TICK -> "it ticks harder than the others";
            case UNSPECIFIED -> "a shaft or a cylinder that no belt drives";
            case NONE -> "no fault";
        };
    }

    /**
     * Names a line of a part.
     *
     * @param kind as lines are called in answers, such as {@code bearing-outer-ring}
     * @return such as "outer ring"
     */
    public static String line(String kind) {
        return kind.replaceFirst("^bearing-", "")
                .replaceFirst("^(\\d+)x", "$1 × ")
                .replace('-', ' ');
    }

    /**
     * Names a test.
     *
     * @param kind as in {@link tickover.diagnose.NextTest#kind}
     * @return a few words
     */
    public static String test(String kind) {
        return switch (kind) {
            case "point" -> "another point";
            case "injector-off" -> "injector unplugged";
            case "bench" -> "on the bench";
            case "load-aircon" -> "air conditioning on";
            case "load-headlights" -> "headlamps on";
            case "load-steering" -> "steering at full lock";
            default -> kind.replace('-', ' ');
        };
    }

    /**
     * Sums the findings up in one sentence.
     *
     * @param findings what a visit says
     * @return the sentence
     */
    public static String headline(Findings findings) {
        Candidate first = findings.first();
        return switch (findings.verdict()) {
            case COMPONENT ->
                    "The noise most probably comes from "
                            + component(first.component())
                            + ": "
                            + fault(first.fault())
                            + ".";
            case NONE -> "Nothing here is out of the ordinary.";
            case UNCLEAR -> unclear(findings);
        };
    }

    private static String unclear(Findings findings) {
        List<Candidate> suspects =
                findings.candidates().stream()
                        .filter(c -> !c.component().equals(Candidate.NONE))
                        .filter(c -> c.probability() >= WORTH_NAMING)
                        .limit(2)
                        .toList();
        String named =
                suspects.isEmpty()
                        ? "no part stands out"
                        : "the first to look at "
                                + (suspects.size() == 1 ? "is " : "are ")
                                + String.join(
                                        " and ",
                                        suspects.stream()
                                                .map(c -> component(c.component()))
                                                .toList());
        return "The evidence does not decide; " + named + ".";
    }

    /**
     * Says how sure the first candidate is, literally.
     *
     * @param findings what a visit says
     * @return the sentence
     */
    public static String howSure(Findings findings) {
        double p = findings.first().probability();
        String of =
                findings.first().component().equals(Candidate.NONE)
                        ? "that nothing is wrong"
                        : "that it is " + component(findings.first().component());
        return "How sure "
                + of
                + ": "
                + percent(p)
                + ". Of a hundred findings given this figure, "
                + ofHundred(percent(p).replace(" %", ""))
                + " should prove right.";
    }

    private static String ofHundred(String percent) {
        return switch (percent.charAt(0)) {
            case '>' -> "more than " + percent.substring(1);
            case '<' -> "fewer than " + percent.substring(1);
            default -> "about " + percent;
        };
    }

    /**
     * Writes a probability in per cent; never 0 or 100, which nothing measured is.
     *
     * @param probability 0 to 1
     * @return such as "93 %" or "&lt;1 %"
     */
    public static String percent(double probability) {
        if (probability < 0.01) {
            return "<1 %";
        }
        return probability > 0.99
                ? ">99 %"
                : String.format(Locale.ROOT, "%.0f %%", 100 * probability);
    }

    /**
     * Says a change of level in words.
     *
     * @param change the change
     * @return such as "clearly quieter"
     */
    public static String change(PartChange change) {
        if (!change.isClear()) {
            return "no change that can be told from scatter";
        }
        double size = Math.abs(change.changeDb());
        String how = size >= SERIOUS_DB ? "far " : size >= LOOK_DB ? "clearly " : "a little ";
        return how + (change.changeDb() < 0 ? "quieter" : "louder");
    }

    /**
     * Names what limits a capture.
     *
     * @param problem the problem
     * @return a few words
     */
    public static String problem(QualityProblem problem) {
        return switch (problem) {
            case CLIPPED -> "clipped";
            case LOST_CONTACT -> "lost contact";
            case KNOCK -> "knock";
            case TILT -> "probe turned";
            case MOUNT_CHANGE -> "held differently";
            case MISSING_SAMPLES -> "samples missing";
            case TACH_DROPOUT -> "tach dropout";
            case BAND_LIMIT -> "limit of the mount";
            case NARROW_BAND -> "sampled too slowly for early bearing damage";
            case SHORT -> "short";
            case ODD_TOUCH -> "unlike its sisters";
            case FLAT -> "signal does not move";
            case TOO_SLOW -> "sampled too slowly";
            case TOO_FEW_TURNS -> "too few turns";
            case TOO_LITTLE_LEFT -> "not usable";
            case NO_SPEED -> "speed not known";
            case NO_DRIVE -> "no drive described";
            case OTHER -> "noted";
        };
    }

    /**
     * Names a sort of evidence.
     *
     * @param kind the sort
     * @return one or two words
     */
    public static String evidence(EvidenceKind kind) {
        return switch (kind) {
            case PATTERN -> "rhythm";
            case PLACE -> "place";
            case CONTRAST -> "load change";
            case BELT_OFF -> "belt off";
            case INJECTOR_OFF -> "injector off";
            case COMPLAINT -> "complaint";
            case HISTORY -> "earlier visits";
            case SHARED -> "shared order";
        };
    }

    /**
     * Says how much a reason weighs.
     *
     * @param strengthDb ten times the decimal logarithm of the factor by which it moves the odds
     * @return such as "weighs heavily"
     */
    public static String weight(double strengthDb) {
        double size = Math.abs(strengthDb);
        if (size >= HEAVY_DB) {
            return "weighs heavily";
        }
        return size >= SOME_DB ? "weighs something" : "weighs little";
    }

    /**
     * Says how much a test is expected to tell.
     *
     * @param gainBits expected information, bits
     * @return such as "should tell much"
     */
    public static String gain(double gainBits) {
        if (gainBits >= MUCH_BITS) {
            return "should tell much";
        }
        return gainBits >= SOME_BITS ? "should tell something" : "may tell a little";
    }

    /** Puts words to type into quotes, where there is no typewriter face for them. */
    static String withoutMarks(String text) {
        return text.replace('`', '"');
    }
}

package tickover.report;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tickover.diagnose.Candidate;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.Evidence;
import tickover.diagnose.EvidenceKind;
import tickover.diagnose.Fault;
import tickover.diagnose.Findings;
import tickover.diagnose.NextTest;
import tickover.diagnose.TestRisk;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitResult;
import tickover.drive.DriveModel;
import tickover.store.Visit;

/** What the first page says, in words that need no knowledge of engines or signals. */
final class CustomerPage {
    private static final int MOST_REASONS = 4;

    /** Reasons that move the odds by less than a quarter are left to the technical pages. */
    private static final double WORTH_SAYING_DB = 1;

    /** Others below this are not worth a word on the first page. */
    private static final double WORTH_NAMING = 0.01;

    private static final int MOST_OTHERS = 3;

    /** A level difference that a sentence states, not one inside an interval. */
    private static final Pattern DIFFERENCE =
            Pattern.compile(
                    "(?<![-+.\\d])(\\d+(?:\\.\\d+)?) dB (?=more|weaker|stronger|quieter|louder|"
                            + "LOUDER|over)");

    /**
     * Place, mount and scatter at the end of what earlier visits say are for the technical pages.
     */
    private static final Pattern WHERE_IN_DETAIL = Pattern.compile(" \\([^()]*\\)\\.$");

    private static final Pattern FULL_STOP = Pattern.compile("\\.$");

    private CustomerPage() {}

    static Map<String, Object> values(Visit visit, DriveModel model, VisitResult result) {
        Findings findings = result.findings();
        Map<String, Object> v = new HashMap<>();
        v.put("headline", Wording.headline(findings));
        v.put("howSure", Wording.howSure(findings));
        v.put("verdict", findings.verdict().word());
        v.put("askFor", askFor(findings));
        v.put("done", done(result));
        v.put("whyIntro", whyIntro(findings));
        v.put("why", why(findings));
        v.put("lessLikely", lessLikely(findings));
        v.put("notTested", NotTested.sentences(visit, model, result));
        v.put("next", next(findings));
        return v;
    }

    private static String askFor(Findings findings) {
        return switch (findings.verdict()) {
            case COMPONENT ->
                    "that "
                            + Wording.component(findings.first().component())
                            + " is checked, and put right if the check agrees; then the same"
                            + " recordings again, which show whether the noise is gone.";
            case UNCLEAR ->
                    findings.nextTests().isEmpty()
                            ? "more recordings, at more places and under load, before any part is"
                                    + " replaced."
                            : "the test under \"What comes next\", before any part is replaced.";
            case NONE ->
                    "nothing now. Keep this page: if the noise comes back, new recordings can be"
                            + " held against these.";
        };
    }

    private static String done(VisitResult result) {
        List<CaptureSummary> captures = result.captures();
        if (captures.isEmpty()) {
            return "No recording of this visit could be used.";
        }
        long points = captures.stream().map(c -> c.label().point()).distinct().count();
        double lengthS = captures.stream().mapToDouble(CaptureSummary::durationS).sum();
        double least =
                captures.stream().mapToDouble(CaptureSummary::minSpeedRpm).min().getAsDouble();
        double most =
                captures.stream().mapToDouble(CaptureSummary::maxSpeedRpm).max().getAsDouble();
        return String.format(
                Locale.ROOT,
                "A vibration probe was held to the running engine at %d place%s: %d recording%s,"
                        + " %.0f s in all, at %.0f to %.0f engine turns a minute. Every part turns"
                        + " or knocks at its own multiple of engine speed, so its noise can be told"
                        + " by its rhythm.",
                points,
                points == 1 ? "" : "s",
                captures.size(),
                captures.size() == 1 ? "" : "s",
                lengthS,
                least,
                most);
    }

    private static String whyIntro(Findings findings) {
        return switch (findings.verdict()) {
            case COMPONENT -> "";
            case NONE -> "No part makes a noise in its own rhythm beyond what sound engines make.";
            case UNCLEAR ->
                    "No part stands out enough to be named. What speaks for and against "
                            + Wording.component(findings.subject().component())
                            + ":";
        };
    }

    private static List<String> why(Findings findings) {
        Candidate subject = findings.subject();
        List<String> out = new ArrayList<>();
        subject.evidence().stream()
                .filter(e -> Math.abs(e.strengthDb()) >= WORTH_SAYING_DB || isShared(e))
                .limit(MOST_REASONS)
                .map(e -> reason(e, subject))
                .forEach(out::add);
        if (out.isEmpty() && findings.verdict() != Verdict.NONE) {
            out.add("The recordings hold no single reason of weight.");
        }
        return out;
    }

    private static boolean isShared(Evidence e) {
        return e.kind() == EvidenceKind.SHARED;
    }

    private static String reason(Evidence e, Candidate subject) {
        if (isShared(e)) {
            return "Another part makes nearly the same rhythm, so place and load had to tell them"
                    + " apart.";
        }
        boolean rhythm = e.kind() == EvidenceKind.PATTERN && subject.fault() != Fault.NONE;
        String said =
                e.kind() == EvidenceKind.HISTORY
                        ? WHERE_IN_DETAIL.matcher(e.text()).replaceFirst(".")
                        : e.text();
        String text = rhythm ? rhythm(subject, e.strengthDb() > 0) : inTimes(said);
        return FULL_STOP.matcher(text).replaceFirst("")
                + " ("
                + (e.strengthDb() < 0 ? "speaks against it, " : "")
                + Wording.weight(e.strengthDb())
                + ").";
    }

    private static String rhythm(Candidate subject, boolean there) {
        String part = Wording.component(subject.component());
        String what =
                switch (subject.fault()) {
                    case BEARING_OUTER_RING, BEARING_INNER_RING, ROLLING_ELEMENT ->
                            "a knocking in just the rhythm of the balls in the bearing of " + part;
                    case CAGE -> "a beat in the rhythm of the bearing cage of " + part;
                    case BEARING_ROUGH -> "a rushing that comes and goes with each turn of " + part;
                    case ECCENTRIC -> "a shake once per turn of " + part;
                    case LOOSE -> "knocks in time with the turns of " + part;
                    case BELT_DAMAGE -> "a knock each time the belt comes round";
                    case TICK -> "a tick of one cylinder that is louder than the others'";
                    case UNSPECIFIED -> "a knocking in time with " + part + ", not with its belt";
                    case NONE -> "a noise out of the ordinary";
                };
        return there
                ? "There is " + what + "."
                : "There is little of what it would make: " + what + ".";
    }

    /** Adds to a difference in dB how many times that is. */
    static String inTimes(String text) {
        Matcher m = DIFFERENCE.matcher(text);
        return m.replaceAll(
                r -> r.group(1) + " dB (" + times(Double.parseDouble(r.group(1))) + " times) ");
    }

    /** A level difference as a factor, rounded as one says it. */
    static String times(double differenceDb) {
        double factor = Math.pow(10, differenceDb / 20);
        if (factor < 10) {
            return String.format(Locale.ROOT, factor < 3 ? "%.1f" : "%.0f", factor);
        }
        double step = Math.pow(10, Math.floor(Math.log10(factor))) / 2;
        return String.format(Locale.ROOT, "%.0f", step * Math.round(factor / step));
    }

    private static String lessLikely(Findings findings) {
        return String.join(
                ", ",
                findings.candidates().stream()
                        .filter(c -> !c.equals(findings.subject()))
                        .filter(c -> c.probability() >= WORTH_NAMING)
                        .limit(MOST_OTHERS)
                        .map(
                                c ->
                                        Wording.component(c.component())
                                                + " "
                                                + Wording.percent(c.probability()))
                        .toList());
    }

    private static String next(Findings findings) {
        if (findings.nextTests().isEmpty()) {
            return "No further test is proposed.";
        }
        NextTest t =
                findings.nextTests().stream()
                        .filter(n -> n.expectedGainBits() >= Wording.SOME_BITS)
                        .findFirst()
                        .orElse(findings.nextTests().get(0));
        return String.format(
                Locale.ROOT,
                "%s This takes about %.0f min, is of %s and %s.",
                Wording.withoutMarks(t.text()),
                t.minutes(),
                TestRisk.of(t.kind()).word(),
                Wording.gain(t.expectedGainBits()));
    }
}

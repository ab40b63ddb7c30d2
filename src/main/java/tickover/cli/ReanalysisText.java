package tickover.cli;

import com.google.gson.JsonObject;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import tickover.diagnose.Candidate;
import tickover.diagnose.PartLevel;
import tickover.diagnose.ResultDifference;
import tickover.diagnose.VisitResult;
import tickover.drive.PartWords;
import tickover.report.Wording;
import tickover.session.Reanalysis;

/** Tells what came of analysing visits anew. */
final class ReanalysisText {
    /** Lines about levels of one visit; more would hide the verdicts. */
    private static final int MOST_LEVELS = 6;

    private ReanalysisText() {}

    static String title(Reanalysis.Line line) {
        return line.visit().unit()
                + " of "
                + line.visit().date().toLocalDate()
                + ", "
                + line.visit().id();
    }

    /** What differs; nothing where nothing does. */
    static List<String> lines(Reanalysis.Line line) {
        List<String> lines = new ArrayList<>();
        for (ResultDifference d : line.difference()) {
            if (d.any()) {
                lines.add(
                        title(line)
                                + ", version "
                                + d.before().codeVersion()
                                + " -> "
                                + d.after().codeVersion());
                answer(d, lines);
                levels(d, lines);
            }
        }
        return lines;
    }

    private static void answer(ResultDifference d, List<String> lines) {
        if (d.verdictDiffers()) {
            lines.add(
                    "  verdict: "
                            + d.before().findings().verdict().word()
                            + " -> "
                            + d.after().findings().verdict().word());
        }
        if (d.suspectDiffers() || d.probabilityDiffers()) {
            lines.add("  first suspect: " + suspect(d.before()) + " -> " + suspect(d.after()));
        }
    }

    private static String suspect(VisitResult result) {
        Candidate c = result.findings().subject();
        String fault = c.component().equals(Candidate.NONE) ? "" : " (" + c.fault().words() + ")";
        return Wording.component(c.component()) + fault + " " + Prose.percent(c.probability());
    }

    private static void levels(ResultDifference d, List<String> lines) {
        d.levels().stream()
                .sorted(
                        Comparator.comparingDouble(ResultDifference.LevelChange::changeMps2)
                                .reversed())
                .limit(MOST_LEVELS)
                .forEach(
                        l ->
                                lines.add(
                                        "  level of "
                                                + PartWords.the(l.after().part())
                                                + " in "
                                                + l.after().capture()
                                                + ": "
                                                + level(l.before())
                                                + " -> "
                                                + level(l.after())
                                                + " m/s²"));
        if (d.levels().size() > MOST_LEVELS) {
            lines.add(
                    "  and "
                            + Amounts.count(d.levels().size() - MOST_LEVELS, "more level")
                            + "; --json lists all");
        }
        if (!d.appeared().isEmpty()) {
            lines.add("  " + Amounts.count(d.appeared().size(), "level") + " not measured before");
        }
        if (!d.vanished().isEmpty()) {
            lines.add(
                    "  " + Amounts.count(d.vanished().size(), "level") + " not measured any more");
        }
    }

    private static String level(PartLevel l) {
        return Prose.three(l.levelRmsMps2()) + " ± " + Prose.three(l.standardErrorMps2());
    }

    static String summary(List<Reanalysis.Line> lines) {
        List<String> parts = new ArrayList<>();
        parts.add("Analysed " + Amounts.count(count(lines, Reanalysis.Outcome.ANALYSED), "visit"));
        add(parts, count(lines, Reanalysis.Outcome.DONE_BEFORE), "done before by this version");
        add(parts, count(lines, Reanalysis.Outcome.REMOVED), "without recordings (tidy)");
        add(parts, count(lines, Reanalysis.Outcome.FAILED), "failed");
        long compared = lines.stream().filter(l -> !l.difference().isEmpty()).count();
        long verdicts =
                lines.stream()
                        .flatMap(l -> l.difference().stream())
                        .filter(d -> d.verdictDiffers() || d.suspectDiffers())
                        .count();
        return String.join(", ", parts)
                + (compared == 0
                        ? "; there is no other version's result to compare with."
                        : ". Of "
                                + compared
                                + " compared with another version's result, "
                                + verdicts
                                + " come to another verdict or suspect.");
    }

    private static int count(List<Reanalysis.Line> lines, Reanalysis.Outcome outcome) {
        return (int) lines.stream().filter(l -> l.outcome() == outcome).count();
    }

    private static void add(List<String> parts, int count, String what) {
        if (count > 0) {
            parts.add(count + " " + what);
        }
    }

    static JsonObject json(Reanalysis.Line line) {
        JsonObject o = new JsonObject();
        o.addProperty("visit", line.visit().id().toString());
        o.addProperty("unit", line.visit().unit());
        o.addProperty("date", line.visit().date().toString());
        o.addProperty("outcome", line.outcome().name().toLowerCase(Locale.ROOT).replace('_', '-'));
        if (!line.why().isEmpty()) {
            o.addProperty("why", line.why());
        }
        for (ResultDifference d : line.difference()) {
            o.addProperty("differs", d.any());
            o.add("before", json(d.before()));
            o.add("after", json(d.after()));
            o.add("levels", Json.array(d.levels(), l -> json(l.before(), l.after())));
            o.add("appeared", Json.array(d.appeared(), ReanalysisText::json));
            o.add("vanished", Json.array(d.vanished(), ReanalysisText::json));
        }
        return o;
    }

    private static JsonObject json(VisitResult result) {
        Candidate c = result.findings().subject();
        JsonObject o = new JsonObject();
        o.addProperty("codeVersion", result.codeVersion());
        o.addProperty("verdict", result.findings().verdict().word());
        o.addProperty("component", c.component());
        o.addProperty("fault", c.fault().word());
        Json.put(o, "probability", c.probability());
        return o;
    }

    private static JsonObject json(PartLevel l) {
        JsonObject o = new JsonObject();
        o.addProperty("part", l.part());
        o.addProperty("capture", l.capture());
        Json.put(o, "levelRmsMps2", l.levelRmsMps2());
        Json.put(o, "standardErrorMps2", l.standardErrorMps2());
        return o;
    }

    private static JsonObject json(PartLevel before, PartLevel after) {
        JsonObject o = new JsonObject();
        o.addProperty("part", after.part());
        o.addProperty("capture", after.capture());
        Json.put(o, "beforeRmsMps2", before.levelRmsMps2());
        Json.put(o, "beforeStandardErrorMps2", before.standardErrorMps2());
        Json.put(o, "afterRmsMps2", after.levelRmsMps2());
        Json.put(o, "afterStandardErrorMps2", after.standardErrorMps2());
        return o;
    }
}

package tickover.cli;

import com.google.gson.JsonObject;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import tickover.diagnose.BeforeAfter;
import tickover.diagnose.PartChange;
import tickover.diagnose.PartLevel;

/** Before and after. */
@Command(
        name = "compare",
        description = {
            "Holds two visits or two captures against each other: how every part's level changed,"
                    + " in dB, with a 95 %% interval.",
            "",
            "Two visits are compared like with like: same point, axis, mount, regime and condition;"
                    + " a part that was probed at its own point is judged there. Two captures are"
                    + " compared as they are, which shows what a load or a place changes. Ends with"
                    + " exit code 1 if nothing of the two can be compared."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover compare ML-07-today ML-07-after-repair",
            "  tickover compare ML-07-today#c01 ML-07-today#c02",
            "  tickover compare 0195f0c2 0195f7aa --json"
        })
final class CompareVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(
            index = "0",
            paramLabel = "BEFORE",
            description = "A visit (folder or id), or a capture as VISIT#c01.")
    private String before;

    @Parameters(index = "1", paramLabel = "AFTER", description = "Another of the same sort.")
    private String after;

    CompareVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    /** What is compared, and how it came out. */
    private record Comparison(String before, String after, List<PartChange> changes) {}

    @Override
    public Integer call() {
        if (CaptureHandle.isNamedBy(before) != CaptureHandle.isNamedBy(after)) {
            throw CliException.badInput(
                    "one of '"
                            + before
                            + "' and '"
                            + after
                            + "' is a visit and the other a capture; name two of one sort");
        }
        Comparison found = CaptureHandle.isNamedBy(before) ? captures() : visits();
        if (shared.json()) {
            terminal.json(json(found));
        } else {
            terminal.lines(text(found));
        }
        return found.changes().isEmpty() ? ExitCode.NO : ExitCode.DONE;
    }

    private Comparison visits() {
        Visits visits = new Visits(terminal, shared.dataFolder());
        VisitHandle a = visits.find(before);
        VisitHandle b = visits.find(after);
        warnOfTwoVehicles(a, b);
        return new Comparison(
                a.title(), b.title(), BeforeAfter.visits(visits.result(a), visits.result(b)));
    }

    private Comparison captures() {
        Visits visits = new Visits(terminal, shared.dataFolder());
        CaptureHandle a = CaptureHandle.find(before, visits);
        CaptureHandle b = CaptureHandle.find(after, visits);
        warnOfTwoVehicles(a.of(), b.of());
        return new Comparison(
                a.title(), b.title(), BeforeAfter.captures(levels(a, visits), levels(b, visits)));
    }

    private void warnOfTwoVehicles(VisitHandle a, VisitHandle b) {
        String before = a.visit().vehicle().unit();
        String after = b.visit().vehicle().unit();
        if (!before.equals(after)) {
            terminal.note(
                    "these are two vehicles, "
                            + before
                            + " and "
                            + after
                            + ": a difference between them is no change of either");
        }
    }

    private static List<PartLevel> levels(CaptureHandle handle, Visits visits) {
        return visits.result(handle.of()).levels().stream()
                .filter(l -> l.capture().equals(handle.capture().label().id()))
                .toList();
    }

    private static List<String> text(Comparison found) {
        List<String> lines = new ArrayList<>();
        lines.addAll(Prose.fold("Before: ", found.before()));
        lines.addAll(Prose.fold("After:  ", found.after()));
        lines.add("");
        if (found.changes().isEmpty()) {
            lines.addAll(
                    Prose.fold(
                            "",
                            "Nothing can be compared: no two captures agree in point, axis, mount,"
                                    + " regime and condition and have a level above its error."));
            return lines;
        }
        lines.addAll(ChangeTable.lines(found.changes()));
        return lines;
    }

    private JsonObject json(Comparison found) {
        JsonObject o = new JsonObject();
        o.addProperty("before", before);
        o.addProperty("after", after);
        o.add("changes", Json.array(found.changes(), ChangeTable::json));
        return o;
    }
}

package tickover.cli;

import com.google.gson.JsonObject;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.diagnose.BeforeAfter;
import tickover.diagnose.PartChange;
import tickover.diagnose.PartLevel;
import tickover.diagnose.RepairProof;
import tickover.diagnose.Verdict;
import tickover.diagnose.VisitResult;

/** Before and after. */
@Command(
        name = "compare",
        description = {
            "Holds two visits or two captures against each other: how every part's level changed,"
                    + " in dB, with a 95 %% interval.",
            "",
            "Two visits are compared like with like: same point, axis, mount, regime, condition and"
                    + " speed; captures without a like one are named and left out. A part that was"
                    + " probed at its own point is judged there. Two captures are compared as they"
                    + " are, which shows what a load or a place changes.",
            "",
            "After a repair, name the part with --repaired: is its noise gone, how likely is that"
                    + " luck, did anything else change, is anything new? Without it the part that"
                    + " the earlier visit named is taken. Ends with exit code 1 if nothing of the"
                    + " two can be compared, or if the repair is not proven."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover compare ML-07-today ML-07-after-repair",
            "  tickover compare ML-07-today ML-07-after-repair --repaired idler",
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

    @Option(
            names = "--repaired",
            paramLabel = "PART",
            description =
                    "The part that was repaired between two visits. Default: the one that the"
                            + " earlier visit named, if it did.")
    private String repaired;

    CompareVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    /** What is compared, and how it came out; with one proof if there was a repair. */
    private record Comparison(
            String before,
            String after,
            List<PartChange> changes,
            List<RepairProof> proof,
            List<String> unlike) {}

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
        if (repaired != null && CaptureHandle.isNamedBy(before)) {
            throw CliException.badInput("--repaired goes with two visits, not with two captures");
        }
        Comparison found = CaptureHandle.isNamedBy(before) ? captures() : visits();
        if (shared.json()) {
            terminal.json(json(found));
        } else {
            terminal.lines(text(found));
        }
        boolean unproven =
                repaired != null
                        && found.proof().stream()
                                .anyMatch(p -> p.state() != RepairProof.State.GONE);
        return found.changes().isEmpty() || unproven ? ExitCode.NO : ExitCode.DONE;
    }

    private Comparison visits() {
        Visits visits = new Visits(terminal, shared.log());
        VisitHandle a = visits.find(before);
        VisitHandle b = visits.find(after);
        TwoVisits.warnOfTwoVehicles(terminal, a, b);
        VisitResult old = visits.result(a);
        VisitResult now = visits.result(b);
        List<RepairProof> proof =
                repairedPart(a, old).map(p -> RepairProof.of(old, now, p)).stream().toList();
        return new Comparison(
                a.title(),
                b.title(),
                BeforeAfter.visits(old, now),
                proof,
                RepairProof.unlike(old, now));
    }

    private Optional<String> repairedPart(VisitHandle handle, VisitResult old) {
        if (repaired == null) {
            return old.findings().verdict() == Verdict.COMPONENT
                    ? Optional.of(old.findings().first().component())
                    : Optional.empty();
        }
        return Optional.of(TwoVisits.repaired(repaired, handle, old));
    }

    private Comparison captures() {
        Visits visits = new Visits(terminal, shared.log());
        CaptureHandle a = CaptureHandle.find(before, visits);
        CaptureHandle b = CaptureHandle.find(after, visits);
        TwoVisits.warnOfTwoVehicles(terminal, a.of(), b.of());
        return new Comparison(
                a.title(),
                b.title(),
                BeforeAfter.captures(levels(a, visits), levels(b, visits)),
                List.of(),
                List.of());
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
                                    + " regime, condition and speed and have a level above its"
                                    + " error."));
            found.unlike().forEach(u -> lines.addAll(Prose.fold("", u)));
            return lines;
        }
        found.proof().forEach(p -> lines.addAll(ProofText.lines(p)));
        lines.addAll(ChangeTable.lines(found.changes()));
        found.unlike().forEach(u -> lines.addAll(Prose.fold("", u)));
        return lines;
    }

    private JsonObject json(Comparison found) {
        JsonObject o = new JsonObject();
        o.addProperty("before", before);
        o.addProperty("after", after);
        o.add("changes", Json.array(found.changes(), ChangeTable::json));
        o.add("unlike", Json.words(found.unlike()));
        found.proof().forEach(p -> o.add("repair", ProofText.json(p)));
        return o;
    }
}

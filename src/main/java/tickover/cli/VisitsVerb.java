package tickover.cli;

import com.google.gson.JsonObject;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import tickover.diagnose.Verdict;
import tickover.store.KeptVisit;
import tickover.store.Log;

/** Lists what is in the log. */
@Command(
        name = "visits",
        description = {
            "Lists the visits in the log, oldest first, each with the verdict on its own captures.",
            "",
            "'tickover findings VISIT' weighs in the vehicle's earlier visits as well."
        },
        footerHeading = "%nExamples:%n",
        footer = {"  tickover visits", "  tickover visits ML-07", "  tickover visits --json"})
final class VisitsVerb implements Callable<Integer> {
    private static final String NOT_KNOWN = "-";

    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(
            paramLabel = "UNIT",
            arity = "0..1",
            description = "Only visits of this vehicle, by the fleet's name for it.")
    private String unit;

    VisitsVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        List<KeptVisit> visits;
        try (Log log = new Visits(terminal, shared.log()).openLog()) {
            visits = unit == null ? log.visits() : log.visits(unit);
        }
        if (shared.json()) {
            terminal.json(Json.array(visits, VisitsVerb::json));
        } else if (visits.isEmpty()) {
            terminal.line(
                    "The log at "
                            + shared.log()
                            + " has no visit"
                            + (unit == null ? "" : " of " + unit)
                            + "; 'tickover import DIR' takes one in.");
        } else {
            terminal.lines(table(visits));
        }
        return ExitCode.DONE;
    }

    private static List<String> table(List<KeptVisit> visits) {
        TextTable table =
                new TextTable(
                        "Id",
                        "Unit",
                        "Date",
                        ">Odometer, km",
                        ">Captures",
                        "By itself",
                        "Complaint");
        for (KeptVisit v : visits) {
            table.row(
                    v.id().toString(),
                    v.unit(),
                    v.date().toLocalDate().toString(),
                    v.odometerKm().isPresent()
                            ? Prose.fixed(v.odometerKm().getAsDouble(), 0)
                            : NOT_KNOWN,
                    Integer.toString(v.captureCount()),
                    v.verdict().map(Verdict::word).orElse(NOT_KNOWN),
                    v.complaint());
        }
        List<String> lines = new ArrayList<>(table.lines());
        lines.add("");
        lines.addAll(
                Prose.fold(
                        "",
                        "By itself: the verdict on the visit's own captures. 'tickover findings"
                            + " VISIT' and 'tickover fleet' weigh in the vehicle's earlier visits"
                            + " too, and may come to another."));
        return lines;
    }

    private static JsonObject json(KeptVisit v) {
        JsonObject o = new JsonObject();
        o.addProperty("visit", v.id().toString());
        o.addProperty("unit", v.unit());
        o.addProperty("date", v.date().toString());
        Json.putIfPresent(o, "odometerKm", v.odometerKm());
        o.addProperty("complaint", v.complaint());
        o.addProperty("captures", v.captureCount());
        v.verdict().ifPresent(w -> o.addProperty("verdict", w.word()));
        v.analysedAt().ifPresent(t -> o.addProperty("analysedAt", t.toString()));
        return o;
    }
}

package tickover.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.order.OrderLine;
import tickover.session.TrackedCapture;

/** Level and phase of chosen orders. */
@Command(
        name = "orders",
        description = {
            "Measures chosen orders over a whole capture: rms acceleration, its standard error, and"
                    + " phase.",
            "",
            "The line is sqrt(2) * rms * cos(order * crank angle + phase). With a tach, crank angle"
                    + " counts from the mark, so that phases of different captures can be compared;"
                    + " without one it counts from wherever the crank stood at the start, and"
                    + " 'phaseIsFromMark' in the JSON answer is false.",
            "",
            "Bad stretches (clipped, knocked, off the part and the like) stay in and are named."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover orders ML-07-today#c01 --orders 1,2,5.997",
            "  tickover orders 0195f0c2#c03 --orders 0.5,1,1.5 --axis z --json"
        })
final class OrdersVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(
            paramLabel = "CAPTURE",
            description =
                    "DIR#c01 for the capture of a visit folder whose file is c01.wav, or VISIT#c01"
                            + " for one of an imported visit.")
    private String capture;

    @Option(
            names = "--orders",
            required = true,
            split = ",",
            paramLabel = "ORDER",
            description = "Orders per crank turn, separated by commas; fractions are allowed.")
    private List<Double> orders;

    @Option(
            names = "--axis",
            description =
                    "Channel of a three-axis capture: ${COMPLETION-CANDIDATES}. Default:"
                            + " ${DEFAULT-VALUE}, the first.")
    private Axis axis = Axis.X;

    OrdersVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        CaptureHandle handle =
                CaptureHandle.find(capture, new Visits(terminal, shared.dataFolder()));
        TrackedCapture tracked = TrackedCapture.of(handle.of().visit().vehicle(), handle.capture());
        List<OrderLine> lines;
        try {
            lines = tracked.lines(axis.channelOf(tracked, capture), orders);
        } catch (IllegalArgumentException e) {
            throw CliException.badInput("--orders: " + e.getMessage(), e);
        }
        BadStretches bad = new BadStretches(tracked.badStretches());
        if (shared.json()) {
            terminal.json(json(lines, tracked.phaseKnown(), bad));
        } else {
            terminal.line(handle.title());
            terminal.gap();
            terminal.lines(table(lines));
            terminal.gap();
            terminal.line(
                    tracked.phaseKnown()
                            ? "Phase counts from the tach's mark."
                            : "Phase counts from where the crank stood at the start: no mark.");
            if (!bad.none()) {
                terminal.lines(Prose.fold("", bad.sentence("These levels")));
            }
        }
        return ExitCode.DONE;
    }

    private static JsonArray json(List<OrderLine> lines, boolean phaseKnown, BadStretches bad) {
        return Json.array(
                lines,
                line -> {
                    JsonObject o = new JsonObject();
                    Json.put(o, "order", line.order());
                    Json.put(o, "rmsMps2", line.rms());
                    Json.put(o, "standardError", line.standardError());
                    Json.put(o, "phaseDeg", line.phaseDeg());
                    o.addProperty("phaseIsFromMark", phaseKnown);
                    if (!bad.none()) {
                        o.add("badStretches", bad.json());
                    }
                    return o;
                });
    }

    private static List<String> table(List<OrderLine> lines) {
        TextTable table =
                new TextTable(">Order", ">rms, m/s²", ">Standard error, m/s²", ">Phase, deg");
        for (OrderLine line : lines) {
            table.row(
                    Prose.fixed(line.order(), 4),
                    Prose.three(line.rms()),
                    Prose.three(line.standardError()),
                    Prose.fixed(line.phaseDeg(), 1));
        }
        return table.lines();
    }
}

package tickover.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.order.AngleNote;
import tickover.order.OrderLine;
import tickover.session.PartAverages;
import tickover.session.TrackedCapture;

/** Level and phase of chosen orders, or of all that repeats with the turns of chosen pulleys. */
@Command(
        name = "orders",
        description = {
            "Measures chosen orders over a whole capture: rms acceleration, its standard error, and"
                    + " phase. Or, with --part, all that repeats with every turn of a pulley: the"
                    + " mean over its own turns (a synchronous average), and what remains.",
            "",
            "The line is sqrt(2) * rms * cos(order * crank angle + phase). With a tach, crank angle"
                    + " counts from the mark, so that phases of different captures can be compared;"
                    + " without one it counts from wherever the crank stood at the start, and"
                    + " 'phaseIsFromMark' in the JSON answer is false.",
            "",
            "A pulley's speed is looked for around what the diameters say. 'By chance' is the rms"
                    + " that the scatter from turn to turn alone would leave; a level near it says"
                    + " nothing. A line that two parts share counts as the first one's: the crank"
                    + " pulley's where it is asked for, else the engine's (its working cycle), then"
                    + " as the pulleys are named.",
            "",
            "Bad stretches (clipped, knocked, off the part and the like) stay in and are named."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover orders ML-07-today#c01 --orders 1,2,5.997",
            "  tickover orders 0195f0c2#c03 --orders 0.5,1,1.5 --axis z --json",
            "  tickover orders ML-07-today#c01 --part idler,alternator",
            "  tickover orders ML-07-today#c01 --orders 2,4 --ripple out"
        })
final class OrdersVerb implements Callable<Integer> {
    /** Harmonics of parts are counted up to this order, per crank turn. */
    private static final double MOST_ORDERS = 60;

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
            split = ",",
            paramLabel = "ORDER",
            description = "Orders per crank turn, separated by commas; fractions are allowed.")
    private List<Double> orders;

    @Option(
            names = "--part",
            split = ",",
            paramLabel = "PULLEY",
            description =
                    "Instead of orders: pulleys of the vehicle, separated by commas, for all that"
                            + " repeats with their turns.")
    private List<String> parts;

    @Option(
            names = "--axis",
            description =
                    "Channel of a three-axis capture: ${COMPLETION-CANDIDATES}. Default:"
                            + " ${DEFAULT-VALUE}, the first.")
    private Axis axis = Axis.X;

    @Option(
            names = "--ripple",
            description =
                    "What to do with the crank's torsional ripple, as far as the tach's marks show"
                            + " it: ${COMPLETION-CANDIDATES}. 'in' takes marks that seem even for"
                            + " exactly so, 'out' measures against a shaft that turns without"
                            + " ripple, 'seen' puts what repeats with every turn down to the marks."
                            + " Default: ${DEFAULT-VALUE}.")
    private RippleWord ripple = RippleWord.SEEN;

    OrdersVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        if ((orders == null) == (parts == null)) {
            throw CliException.badInput(
                    "name what to measure: either --orders, such as --orders 1,2, or --part, such"
                            + " as --part idler");
        }
        CaptureHandle handle = CaptureHandle.find(capture, new Visits(terminal, shared.log()));
        TrackedCapture tracked =
                TrackedCapture.of(
                        handle.of().visit().vehicle(), handle.capture(), ripple.request());
        int channel = axis.channelOf(tracked, capture);
        BadStretches bad = new BadStretches(tracked.badStretches());
        if (parts != null) {
            PartAverages averages = averages(handle, tracked, channel);
            JsonObject json = PartAverageText.json(averages, tracked.phaseKnown(), bad);
            answer(handle, tracked, json, PartAverageText.lines(averages), bad);
        } else {
            List<OrderLine> lines = lines(tracked, channel);
            answer(handle, tracked, json(lines, tracked.phaseKnown(), bad), table(lines), bad);
        }
        return ExitCode.DONE;
    }

    private List<OrderLine> lines(TrackedCapture tracked, int channel) {
        try {
            return tracked.lines(channel, orders);
        } catch (IllegalArgumentException e) {
            throw CliException.badInput("--orders: " + e.getMessage(), e);
        }
    }

    private PartAverages averages(CaptureHandle handle, TrackedCapture tracked, int channel) {
        double highestOrders = Math.min(MOST_ORDERS, tracked.highestOrders());
        terminal.progress("averaging " + capture);
        try {
            return PartAverages.of(
                    handle.of().visit().vehicle(), tracked, channel, highestOrders, parts);
        } catch (IllegalArgumentException e) {
            throw CliException.badInput("--part: " + e.getMessage(), e);
        } finally {
            terminal.progressDone();
        }
    }

    private void answer(
            CaptureHandle handle,
            TrackedCapture tracked,
            JsonElement json,
            List<String> lines,
            BadStretches bad) {
        if (shared.json()) {
            terminal.json(json);
            return;
        }
        terminal.line(handle.title());
        terminal.gap();
        terminal.lines(lines);
        terminal.gap();
        terminal.line(
                tracked.phaseKnown()
                        ? "Phase counts from the tach's mark."
                        : "Phase counts from where the crank stood at the start: no mark.");
        tracked.notes().stream()
                .filter(note -> note.kind() == AngleNote.Kind.RIPPLE)
                .forEach(note -> terminal.line(note.text()));
        if (!bad.none()) {
            terminal.lines(Prose.fold("", bad.sentence("These levels")));
        }
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

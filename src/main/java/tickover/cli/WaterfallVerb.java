package tickover.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.order.OrderSpectrum;
import tickover.order.Waterfall;
import tickover.report.Picture;
import tickover.report.WaterfallCsv;
import tickover.report.WaterfallPicture;
import tickover.session.TrackedCapture;

/** Order spectra one after another. */
@Command(
        name = "waterfall",
        description = {
            "Lays order spectra one after another, over time or over crank speed: orders stand"
                    + " still, resonances wander.",
            "",
            "Writes a picture (PNG, SVG) or a table (CSV: time_s, rpm, then the value of every"
                + " order bin, orders in the header). Levels in the pictures are rms in dB re 1"
                + " m/s² (add 120 for dB re 1 µm/s²). Bad stretches (clipped, knocked, off the part"
                + " and the like) stay in and are named.",
            "",
            "Values in CSV and JSON are, by --scale: rms or peak of a line (m/s²), its power"
                    + " ((m/s²)²), or density ((m/s²)² per order). The first three read a pure tone"
                    + " right whatever --turns is, density reads noise right. Spectra are one-sided"
                    + " under a Hann window, whose noise bandwidth is 1.5 bins of 1/turns orders."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover waterfall ML-07-today#c01 --png waterfall.png",
            "  tickover waterfall ML-07-today#c01 --over speed --max-order 40 --svg sweep.svg",
            "  tickover waterfall ML-07-today#c01 --csv - --max-order 12"
        })
final class WaterfallVerb implements Callable<Integer> {
    private static final int WIDTH_PIXELS = 1200;
    private static final int HEIGHT_PIXELS = 720;
    private static final double MOST_SHOWN_ORDERS = 60;

    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(paramLabel = "CAPTURE", description = "A capture, as DIR#c01 or VISIT#c01.")
    private String capture;

    @Option(names = "--png", paramLabel = "FILE", description = "Write a picture as PNG.")
    private Path png;

    @Option(names = "--svg", paramLabel = "FILE", description = "Write a picture as SVG.")
    private Path svg;

    @Option(
            names = "--csv",
            paramLabel = "FILE",
            description = "Write the numbers as CSV; '-' for standard output.")
    private Path csv;

    @Option(
            names = "--over",
            description =
                    "What the rows are laid along: ${COMPLETION-CANDIDATES}. Default:"
                            + " ${DEFAULT-VALUE}.")
    private Over over = Over.TIME;

    @Option(
            names = "--max-order",
            paramLabel = "ORDER",
            description =
                    "Highest order shown. Default: 60, or what the sample rate allows if that is"
                            + " less.")
    private Double maxOrders;

    @Option(
            names = "--turns",
            paramLabel = "N",
            description =
                    "Crank turns per spectrum: more tell closer orders apart, fewer follow faster"
                            + " changes. At most an eighth of the capture is taken. Default:"
                            + " ${DEFAULT-VALUE}.")
    private int turnsPerFrame = 16;

    @Option(
            names = "--scale",
            description =
                    "What the values in CSV and JSON are: ${COMPLETION-CANDIDATES}. Default:"
                            + " ${DEFAULT-VALUE}.")
    private Scale scale = Scale.RMS;

    @Option(names = "--axis", description = "Channel of a three-axis capture. Default: x.")
    private Axis axis = Axis.X;

    WaterfallVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    /** What a person lays spectra along. */
    private enum Over {
        TIME(Waterfall.Axis.TIME),
        SPEED(Waterfall.Axis.SPEED);

        private final Waterfall.Axis axis;

        Over(Waterfall.Axis axis) {
            this.axis = axis;
        }

        /** The name as it is written on the command line. */
        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** What a person asks values for, and the key they have in JSON. */
    private enum Scale {
        RMS(OrderSpectrum.Scaling.LINE_RMS, "rmsMps2"),
        PEAK(OrderSpectrum.Scaling.LINE_PEAK, "peakMps2"),
        POWER(OrderSpectrum.Scaling.LINE_POWER, "powerMps2Squared"),
        DENSITY(OrderSpectrum.Scaling.POWER_PER_ORDER, "powerMps2SquaredPerOrder");

        private final OrderSpectrum.Scaling scaling;
        private final String key;

        Scale(OrderSpectrum.Scaling scaling, String key) {
            this.scaling = scaling;
            this.key = key;
        }

        /** The name as it is written on the command line. */
        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    @Override
    public Integer call() {
        if (png == null && svg == null && csv == null && !shared.json()) {
            throw CliException.badInput(
                    "nothing to write; add --png FILE, --svg FILE, --csv FILE or --json");
        }
        boolean csvToOutput = csv != null && csv.toString().equals("-");
        if (csvToOutput && shared.json()) {
            throw CliException.badInput(
                    "--csv - and --json both want standard output; name a file for the CSV");
        }
        if (!(turnsPerFrame >= 1)) {
            throw CliException.badInput("--turns " + turnsPerFrame + ": need 1 or more");
        }
        CaptureHandle handle = CaptureHandle.find(capture, new Visits(terminal, shared.log()));
        terminal.progress("tracking " + capture);
        TrackedCapture tracked = TrackedCapture.of(handle.of().visit().vehicle(), handle.capture());
        double highest = highestOrders(tracked);
        Waterfall waterfall =
                tracked.waterfall(
                        axis.channelOf(tracked, capture), highest, turnsPerFrame, over.axis);
        terminal.progressDone();
        if (waterfall.rows().isEmpty()) {
            throw CliException.badInput(
                    capture
                            + " is too short for a spectrum of "
                            + turnsPerFrame
                            + " turns; lower --turns");
        }
        BadStretches bad = new BadStretches(tracked.badStretches());
        if (!bad.none()) {
            terminal.note(bad.sentence("some of these spectra"));
        }
        writePictures(handle, waterfall, highest);
        String table = csv == null ? "" : WaterfallCsv.of(waterfall, highest, scale.scaling);
        if (csvToOutput) {
            terminal.out().print(table);
        } else if (csv != null) {
            OutputFile.write(csv, table.getBytes(StandardCharsets.UTF_8), terminal);
        }
        if (shared.json()) {
            terminal.json(json(waterfall, highest, bad));
        }
        return ExitCode.DONE;
    }

    private double highestOrders(TrackedCapture tracked) {
        double possible = tracked.highestOrders();
        if (maxOrders == null) {
            return Math.min(MOST_SHOWN_ORDERS, possible);
        }
        if (!(maxOrders > 0 && maxOrders <= possible)) {
            throw CliException.badInput(
                    String.format(
                            Locale.ROOT,
                            "--max-order %s: need above 0 and at most %.1f at this sample rate and"
                                    + " speed",
                            maxOrders,
                            Math.floor(10 * possible) / 10));
        }
        return maxOrders;
    }

    private void writePictures(CaptureHandle handle, Waterfall waterfall, double highest) {
        if (png == null && svg == null) {
            return;
        }
        Picture picture = WaterfallPicture.of(waterfall, handle.title(), over.axis, highest);
        if (png != null) {
            OutputFile.write(png, picture.png(WIDTH_PIXELS, HEIGHT_PIXELS), terminal);
        }
        if (svg != null) {
            OutputFile.write(
                    svg,
                    picture.svg(WIDTH_PIXELS, HEIGHT_PIXELS).getBytes(StandardCharsets.UTF_8),
                    terminal);
        }
    }

    private JsonObject json(Waterfall waterfall, double highest, BadStretches bad) {
        int bins = waterfall.rows().get(0).rms().length;
        JsonObject o = new JsonObject();
        JsonArray orders = new JsonArray();
        int shown = 0;
        while (shown < bins && waterfall.orderOf(shown) <= highest) {
            orders.add(waterfall.orderOf(shown));
            shown++;
        }
        o.add("orders", orders);
        o.add("badStretches", bad.json());
        int count = shown;
        o.add(
                "frames",
                Json.array(
                        waterfall.rows(),
                        row -> {
                            JsonObject frame = new JsonObject();
                            Json.put(frame, "timeS", row.timeS());
                            Json.put(frame, "rpm", row.rpm());
                            frame.add(
                                    scale.key,
                                    Json.numbers(
                                            Arrays.stream(waterfall.values(row, scale.scaling))
                                                    .limit(count)
                                                    .boxed()
                                                    .toList()));
                            return frame;
                        }));
        return o;
    }
}

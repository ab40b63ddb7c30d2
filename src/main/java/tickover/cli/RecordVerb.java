package tickover.cli;

import com.google.gson.JsonObject;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.drive.Pulley;
import tickover.drive.Vehicle;
import tickover.report.Caution;
import tickover.session.AtExit;
import tickover.session.KnownPoints;
import tickover.session.LineChoice;
import tickover.session.PlannedCapture;
import tickover.session.RecordLine;
import tickover.session.RecordPlan;
import tickover.session.RecordStatus;
import tickover.session.Recorder;
import tickover.session.RecordingContent;
import tickover.store.VisitFolder;

/** Records from a probe and a speed source. */
@Command(
        name = "record",
        description = {
            "Records from a probe on a serial port, with tach or OBD speed beside it: the bytes as"
                    + " they come, written down at once, so that nothing that happens later can"
                    + " spoil them.",
            "",
            "Without --points there is one capture, which begins by itself. With --points the"
                    + " probe's button (or the Enter key) begins each capture, and ends it again"
                    + " unless --seconds or --turns does. A port that is unplugged is waited for;"
                    + " Ctrl-C ends the recording and keeps it.",
            "",
            "'tickover import FILE' makes a visit of the recording; 'tickover orders FILE' and all"
                    + " other verbs that take a visit folder take a recording as well."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover record --port /dev/ttyACM0 --point alternator --seconds 20",
            "  tickover record --vehicle ML-07.toml --points alternator,idler,tensioner --seconds"
                    + " 12",
            "  tickover record --port COM5 --obd COM7 --point idler --load aircon --turns 200 --to"
                    + " idler-aircon.tkr"
        })
final class RecordVerb implements Callable<Integer> {
    private static final DateTimeFormatter STAMP =
            DateTimeFormatter.ofPattern("yyyy-MM-dd-HHmmss", Locale.ROOT);
    private static final double POLL_S = 0.2;

    private static final Pattern INJECTOR = Pattern.compile("injector-\\d+");

    /** Where nothing was said of the point. */
    private static final String UNNAMED = "unnamed";

    private static final int ANSWER_S = 20;

    private final Terminal terminal;
    private final CountDownLatch answered = new CountDownLatch(1);

    @Mixin private final SharedOptions shared;

    @Mixin private final LineOptions lines;

    @Option(
            names = "--vehicle",
            paramLabel = "FILE",
            description =
                    "The vehicle's description, a vehicle.toml; it is kept in the recording. A"
                            + " point that it does not have is pointed out before anything is"
                            + " recorded.")
    private Path vehicle;

    @Option(
            names = "--point",
            paramLabel = "POINT",
            description =
                    "Where the probe is: a pulley's name, valve-cover, injector-N, block, bracket,"
                            + " or free text.")
    private String point = "";

    @Option(
            names = "--points",
            split = ",",
            paramLabel = "POINT",
            description = "Several points, one capture each, begun by the button or Enter.")
    private List<String> points = List.of();

    @Option(
            names = "--axis",
            paramLabel = "WORD",
            description =
                    "Direction of the probe: radial, axial, vertical, lateral or free text."
                            + " Default: ${DEFAULT-VALUE}.")
    private String axis = "radial";

    @Option(
            names = "--mount",
            paramLabel = "WORD",
            description =
                    "How the probe is held: ${COMPLETION-CANDIDATES}. Default: ${DEFAULT-VALUE}.")
    private Mount mount = Mount.HAND;

    @Option(
            names = "--regime",
            paramLabel = "WORD",
            description =
                    "What the engine speed does: ${COMPLETION-CANDIDATES}. Default:"
                            + " ${DEFAULT-VALUE}.")
    private Regime regime = Regime.IDLE;

    @Option(
            names = "--load",
            split = ",",
            paramLabel = "WORD",
            description = "What the drive has to carry: " + LoadWords.KNOWN + ". Default: nothing.")
    private List<String> load = List.of();

    @Option(names = "--seconds", paramLabel = "S", description = "Length of each capture, s.")
    private double seconds;

    @Option(
            names = "--turns",
            paramLabel = "N",
            description = "Length of each capture, crank turns; needs a speed source.")
    private double turns;

    @Option(
            names = "--to",
            paramLabel = "FILE",
            description =
                    "Where the recording goes; must not exist. Default: a file named after vehicle"
                            + " and time in the folder 'recordings-raw' of the log.")
    private Path to;

    RecordVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
        this.lines = new LineOptions();
    }

    @Override
    public Integer call() throws IOException {
        List<PlannedCapture> planned = planned();
        String toml = vehicleToml(planned);
        requireRatio();
        LineChoice choice = lines.choose(terminal, shared.dataFolder());
        Path file = file();
        RecordPlan plan =
                new RecordPlan(
                        file,
                        toml,
                        planned,
                        !points.isEmpty(),
                        seconds,
                        turns,
                        0,
                        lines.pulsesPerTurn(),
                        lines.tachPulley());
        caution();
        try {
            RecordStatus end = run(plan, choice.lines());
            return answer(file, end);
        } finally {
            answered.countDown();
        }
    }

    /** The description's text as it is, after its faults, the tach's pulley and the points. */
    private String vehicleToml(List<PlannedCapture> planned) throws IOException {
        if (vehicle == null) {
            return "";
        }
        Vehicle described = VisitFolder.readVehicle(vehicle);
        if (described.pulley(lines.tachPulley()).isEmpty()) {
            throw CliException.badInput(
                    "--tach-pulley "
                            + lines.tachPulley()
                            + ": "
                            + vehicle
                            + " has no such pulley; it has "
                            + described.pulleys().stream()
                                    .map(Pulley::name)
                                    .collect(Collectors.joining(", ")));
        }
        planned.stream()
                .map(PlannedCapture::point)
                .filter(p -> !p.equals(UNNAMED))
                .distinct()
                .forEach(p -> KnownPoints.remark(described, p).ifPresent(r -> pointOut(p, r)));
        return Files.readString(vehicle, StandardCharsets.UTF_8);
    }

    /** Importing refuses an injector that is not there, and then it is too late to say so. */
    private void pointOut(String unknown, String remark) {
        if (INJECTOR.matcher(unknown).matches()) {
            throw CliException.badInput(remark);
        }
        terminal.note(remark);
    }

    /** Turns of any other pulley say nothing of the crank's until its size is known. */
    private void requireRatio() {
        if (turns > 0 && vehicle == null && !lines.marksCrank()) {
            throw CliException.badInput(
                    "--turns counts crank turns, and --tach-pulley "
                            + lines.tachPulley()
                            + " turns at another speed; add --vehicle, which says how much");
        }
    }

    private List<PlannedCapture> planned() {
        if (!(seconds >= 0 && turns >= 0)) {
            throw CliException.badInput("--seconds and --turns need numbers above 0");
        }
        if (!points.isEmpty() && !point.isEmpty()) {
            throw CliException.badInput("--point and --points exclude each other; give one");
        }
        List<PlannedCapture> planned = new ArrayList<>();
        List<String> names = points.isEmpty() ? List.of(point.isEmpty() ? UNNAMED : point) : points;
        for (String name : names) {
            planned.add(
                    new PlannedCapture(
                            name.strip(), axis, mount, regime, LoadWords.condition(load)));
        }
        return planned;
    }

    private Path file() throws IOException {
        if (to != null) {
            return to;
        }
        Path folder = shared.dataFolder().resolve("recordings-raw");
        Files.createDirectories(folder);
        String unit = vehicle == null ? "" : VisitFolder.readVehicle(vehicle).unit() + "-";
        String safe = unit.replaceAll("[^A-Za-z0-9._-]", "_");
        return folder.resolve(
                safe + STAMP.format(LocalDateTime.now(ZoneId.systemDefault())) + ".tkr");
    }

    private void caution() {
        terminal.aside(FindingsText.cautions(Caution.beforeRecording(LoadWords.condition(load))));
    }

    private RecordStatus run(RecordPlan plan, List<RecordLine> from) {
        Recorder recorder =
                Recorder.start(plan, from, Clock.system(ZoneId.systemDefault()), block -> {});
        AtExit hook = AtExit.run(() -> endInOrder(recorder));
        try (recorder;
                hook) {
            if (plan.byPress()) {
                EnterKey.listen(recorder::press);
            }
            RecordScreen screen = new RecordScreen(terminal, plan);
            while (!recorder.await(POLL_S)) {
                RecordStatus status = recorder.status();
                screen.show(status);
                String silent = screen.silence(status);
                if (!silent.isEmpty()) {
                    recorder.close();
                    throw CliException.outsideFailed(silent + "; the file is " + plan.file(), null);
                }
            }
            terminal.progressDone();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        return recorder.status();
    }

    /** The process waits until the answer is printed, or long enough. */
    private void endInOrder(Recorder recorder) {
        recorder.close();
        try {
            boolean told = answered.await(ANSWER_S, TimeUnit.SECONDS);
            if (!told) {
                terminal.note("the recording is closed; reading it again took too long");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private int answer(Path file, RecordStatus end) {
        RecordingContent content = RecordingContent.of(file);
        if (shared.json()) {
            JsonObject o = RecordingJson.of(content);
            if (!end.failure().isEmpty()) {
                o.addProperty("failure", end.failure());
            }
            terminal.json(o);
        } else {
            terminal.lines(RecordingText.of(content));
        }
        if (!end.failure().isEmpty()) {
            // A disk that failed names the file and says the same itself.
            boolean said = end.failure().contains(file.toString());
            terminal.note(
                    end.failure()
                            + (said ? "" : "; what was recorded until then is kept in " + file));
            return ExitCode.OUTSIDE_FAILED;
        }
        return ExitCode.DONE;
    }
}

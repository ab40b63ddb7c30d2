package tickover.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import tickover.diagnose.BeforeAfter;
import tickover.diagnose.Findings;
import tickover.diagnose.PartChange;
import tickover.diagnose.VisitResult;
import tickover.order.Waterfall;
import tickover.report.WaterfallPicture;
import tickover.session.ReportMaker;
import tickover.session.SimulatedFolders;
import tickover.session.TrackedCapture;
import tickover.sim.LibraryPool;
import tickover.sim.SimulatedVisit;
import tickover.store.Log;
import tickover.store.LogPlace;
import tickover.store.StoreException;
import tickover.store.Visit;
import tickover.store.VisitCapture;
import tickover.store.VisitFolder;

/** The whole job on a simulated mobile library. */
@Command(
        name = "demo",
        description = {
            "Runs the whole job on simulated recordings of ML-07, a mobile library: last year's"
                    + " service, today's complaint, and the check after the repair. Imports and"
                    + " analyses them, says what a mechanic reads, proves the repair and draws the"
                    + " pictures.",
            "",
            "Only the recordings are simulated; everything after them is what real recordings go"
                    + " through. The demo keeps a log of its own beside yours and can be run again."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover demo",
            "  tickover demo --keep library-demo",
            "  tickover demo --live"
        })
final class DemoVerb implements Callable<Integer> {
    private static final List<String> NAMES =
            List.of("ML-07-last-year", "ML-07-today", "ML-07-after-repair");

    private static final int TODAY = 1;
    private static final int AFTER = 2;
    private static final int WIDTH_PIXELS = 1200;
    private static final int HEIGHT_PIXELS = 720;
    private static final double SHOWN_ORDERS = 40;

    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Option(
            names = "--keep",
            paramLabel = "DIR",
            description =
                    "Where the visit folders and pictures go. Default: the demo's own folder in"
                            + " the data folder.")
    private Path keep;

    @Option(
            names = "--live",
            description =
                    "Record three captures from a simulated probe in real time (about half a"
                        + " minute), through a port as with a real one, and say what they show.")
    private boolean live;

    DemoVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    /** One visit of the demo. */
    record Told(Path folder, SimulatedVisit simulated, VisitHandle handle, VisitResult result) {}

    @Override
    public Integer call() throws IOException {
        Path data = shared.dataFolder().resolve("demo");
        Path folder = keep == null ? data : keep.toAbsolutePath();
        Files.createDirectories(folder);
        Visits visits = new Visits(terminal, LogPlace.folder(data));
        if (live) {
            return live(data, visits);
        }
        List<Told> told = tell(folder, visits);
        List<PartChange> changes =
                BeforeAfter.visits(told.get(TODAY).result(), told.get(AFTER).result());
        DemoStory story = new DemoStory(data, told, changes, files(folder));
        draw(told, folder);
        if (shared.json()) {
            terminal.json(json(data, told, changes, folder));
        } else {
            terminal.lines(story.lines(visits));
        }
        return ExitCode.DONE;
    }

    private int live(Path data, Visits visits) throws IOException {
        VisitHandle handle = new LiveDemo(terminal, data).run(visits, shared.json());
        Findings findings = visits.result(handle).findings();
        if (shared.json()) {
            terminal.json(FindingsJson.of(handle, visits.result(handle)));
        } else {
            terminal.lines(FindingsText.lines(handle, findings));
        }
        return ExitCode.DONE;
    }

    private List<Told> tell(Path folder, Visits visits) throws IOException {
        List<Told> told = new ArrayList<>();
        List<SimulatedVisit> simulated = LibraryPool.visits();
        for (int i = 0; i < NAMES.size(); i++) {
            Path place = folder.resolve(NAMES.get(i));
            terminal.progress("recording " + NAMES.get(i));
            Visit visit = write(simulated.get(i), place);
            keepInLog(visit, visits);
            VisitHandle handle = visits.find(visit.id().toString());
            told.add(new Told(place, simulated.get(i), handle, visits.result(handle)));
        }
        terminal.progressDone();
        return told;
    }

    private void keepInLog(Visit visit, Visits visits) {
        try (Log log = visits.openLog()) {
            log.importVisit(visit);
        } catch (StoreException e) {
            if (e.reason() != StoreException.Reason.OTHER_CONTENT) {
                throw e;
            }
            throw CliException.badInput(
                    "the demo's log at "
                            + shared.dataFolder().resolve("demo")
                            + " holds other recordings of the demo, made by another version;"
                            + " remove that folder and run the demo again",
                    e);
        }
    }

    /**
     * A folder that an earlier run left is read again: the same simulation made it. A new one gets
     * its name when it is whole, so that a run that was stopped leaves nothing half-written behind.
     */
    private static Visit write(SimulatedVisit simulated, Path place) throws IOException {
        if (Files.exists(place)) {
            Visit there = VisitFolder.read(place);
            if (!there.id().toString().equals(simulated.id())) {
                throw CliException.badInput(
                        place + " holds another visit; choose another folder with --keep");
            }
            return there;
        }
        Path draft =
                place.resolveSibling(
                        "." + place.getFileName() + "." + ProcessHandle.current().pid());
        SimulatedFolders.write(simulated, draft);
        Files.move(draft, place);
        return VisitFolder.read(place);
    }

    private static List<Path> files(Path folder) {
        return List.of(
                folder.resolve("ML-07-waterfall.png"),
                folder.resolve("ML-07-report.html"),
                folder.resolve("ML-07-report.pdf"),
                folder.resolve("ML-07-proof.html"),
                folder.resolve("ML-07-proof.pdf"));
    }

    private void draw(List<Told> told, Path folder) {
        terminal.progress("drawing");
        Told today = told.get(TODAY);
        Told after = told.get(AFTER);
        Told before = told.get(0);
        List<Path> files = files(folder);
        OutputFile.writeSilently(files.get(0), waterfall(today));
        String repaired = today.result().findings().firstPart().component();
        write(
                new ReportMaker(today.handle().visit(), today.result())
                        .against(before.handle().visit(), before.result()),
                files.subList(1, 3));
        write(
                new ReportMaker(after.handle().visit(), after.result())
                        .against(today.handle().visit(), today.result(), repaired),
                files.subList(3, 5));
        terminal.progressDone();
    }

    private static void write(ReportMaker report, List<Path> forms) {
        OutputFile.writeSilently(forms.get(0), report.html().getBytes(StandardCharsets.UTF_8));
        OutputFile.writeSilently(forms.get(1), report.pdf());
    }

    private static byte[] waterfall(Told today) {
        Visit visit = today.handle().visit();
        String suspect = today.result().findings().first().component();
        VisitCapture capture =
                visit.captures().stream()
                        .filter(c -> c.label().point().equals(suspect))
                        .findFirst()
                        .orElse(visit.captures().get(0));
        TrackedCapture tracked = TrackedCapture.of(visit.vehicle(), capture);
        double highest = Math.min(SHOWN_ORDERS, tracked.highestOrders());
        Waterfall waterfall = tracked.waterfall(0, highest, 16, Waterfall.Axis.TIME);
        return WaterfallPicture.of(
                        waterfall,
                        new CaptureHandle(today.handle(), capture).title(),
                        Waterfall.Axis.TIME,
                        highest)
                .png(WIDTH_PIXELS, HEIGHT_PIXELS);
    }

    private static JsonObject json(
            Path data, List<Told> told, List<PartChange> changes, Path folder) {
        JsonObject o = new JsonObject();
        o.addProperty("data", data.toString());
        o.add(
                "visits",
                Json.array(
                        told,
                        t -> {
                            JsonObject v = new JsonObject();
                            v.addProperty("folder", t.folder().toString());
                            v.add("findings", FindingsJson.of(t.handle(), t.result()));
                            return v;
                        }));
        o.add("afterRepair", Json.array(changes, ChangeTable::json));
        JsonArray files = new JsonArray();
        files(folder).forEach(f -> files.add(f.toString()));
        o.add("files", files);
        return o;
    }
}

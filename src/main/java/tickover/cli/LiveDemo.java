package tickover.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import tickover.drive.Condition;
import tickover.session.AcquisitionException;
import tickover.session.AtExit;
import tickover.session.RecordPlan;
import tickover.session.RecordStatus;
import tickover.session.Recorder;
import tickover.session.RecordingContent;
import tickover.session.RecordingVisit;
import tickover.session.SimulatedLine;
import tickover.sim.LibraryPool;
import tickover.sim.SimulatedCapture;
import tickover.sim.SimulatedVisit;
import tickover.store.Log;
import tickover.store.Visit;
import tickover.store.VisitFolder;

/**
 * The job with a line in it: a simulated probe is recorded in real time through a port, and the
 * recording becomes a visit.
 */
final class LiveDemo {
    private static final DateTimeFormatter STAMP =
            DateTimeFormatter.ofPattern("yyyy-MM-dd-HHmmss", Locale.ROOT);
    private static final double POLL_S = 0.2;

    /** For starting; even a press that was not heard keeps nobody waiting longer, s. */
    private static final double SLACK_S = 10;

    /** Points of the visit that are walked to: enough to tell, short enough to wait for. */
    private static final List<String> POINTS = List.of("alternator", "idler", "tensioner");

    private final Terminal terminal;
    private final Path data;

    LiveDemo(Terminal terminal, Path data) {
        this.terminal = terminal;
        this.data = data;
    }

    /** Records, imports, and returns the visit as it lies in the log. */
    VisitHandle run(Visits visits, boolean json) throws IOException {
        SimulatedVisit simulated = LibraryPool.complaint();
        List<SimulatedCapture> captures =
                simulated.captures().stream()
                        .filter(c -> POINTS.contains(c.label().point()))
                        .filter(c -> c.label().condition().equals(Condition.UNLOADED))
                        .toList();
        Path folder = data.resolve("recordings-raw");
        Files.createDirectories(folder);
        Path file =
                folder.resolve(
                        "ML-07-live-"
                                + STAMP.format(LocalDateTime.now(ZoneId.systemDefault()))
                                + ".tkr");
        terminal.note(
                "a simulated probe walks to "
                        + String.join(", ", POINTS)
                        + "; this takes as long as it would at the engine.");
        record(captures, VisitFolder.vehicleText(simulated.vehicle()), file);
        if (!json) {
            terminal.lines(RecordingText.of(RecordingContent.of(file)));
            terminal.gap();
        }
        Visit visit =
                visits.recorded(
                        file,
                        new RecordingVisit.About(
                                null, simulated.complaint(), simulated.odometerKm()));
        try (Log log = visits.openLog()) {
            log.importVisit(visit);
        }
        return visits.find(visit.id().toString());
    }

    private void record(List<SimulatedCapture> captures, String vehicle, Path file) {
        try (SimulatedLine line = SimulatedLine.whenAsked(captures, SimulatedLine.Spec.GOOD)) {
            double longestS = line.durationS() + SLACK_S;
            RecordPlan plan =
                    new RecordPlan(file, vehicle, line.plan(), true, 0, 0, longestS, 1, "crank");
            Recorder recorder =
                    Recorder.start(
                            plan, line.lines(), Clock.system(ZoneId.systemDefault()), block -> {});
            AtExit hook = AtExit.run(recorder::close);
            try (recorder;
                    hook) {
                RecordScreen screen = new RecordScreen(terminal, plan);
                while (!recorder.await(POLL_S)) {
                    screen.show(recorder.status());
                }
                terminal.progressDone();
                RecordStatus end = recorder.status();
                if (!end.failure().isEmpty()) {
                    throw new AcquisitionException(
                            AcquisitionException.Kind.OUTSIDE, end.failure(), null);
                }
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }
    }
}

package tickover.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import java.util.stream.Collectors;
import tickover.drive.Condition;
import tickover.session.PlannedCapture;
import tickover.session.RecordLine;
import tickover.session.SimulatedLine;
import tickover.session.SourceInfo.Role;
import tickover.sim.LibraryPool;
import tickover.sim.SimulatedCapture;
import tickover.sim.SimulatedVisit;
import tickover.store.VisitFolder;

/** A simulated probe that waits at a port to be recorded from. */
final class LiveSimulation {
    private final Terminal terminal;

    LiveSimulation(Terminal terminal) {
        this.terminal = terminal;
    }

    /** Plays until the process is ended. */
    int run(Path folder, boolean adapter) throws IOException {
        SimulatedVisit visit = LibraryPool.complaint();
        List<SimulatedCapture> captures =
                visit.captures().stream()
                        .filter(c -> c.label().condition().equals(Condition.UNLOADED))
                        .toList();
        Files.createDirectories(folder);
        Path vehicle = folder.resolve(visit.vehicle().unit() + ".toml");
        Files.writeString(
                vehicle, VisitFolder.vehicleText(visit.vehicle()), StandardCharsets.UTF_8);
        SimulatedLine.Spec spec = new SimulatedLine.Spec(adapter, 0, 1);
        try (SimulatedLine line = SimulatedLine.whenAsked(captures, spec)) {
            if (!line.behindPorts()) {
                throw CliException.outsideFailed(
                        "this system has no pseudo-terminals to play behind; 'tickover demo"
                                + " --live' does without",
                        null);
            }
            terminal.line(
                    "A simulated "
                            + visit.vehicle().unit()
                            + " waits to be recorded. In another terminal:");
            terminal.gap();
            terminal.line("  " + command(line, vehicle));
            terminal.gap();
            terminal.line(
                    String.format(
                            Locale.ROOT,
                            "Its button is pressed for you; all of it takes %.0f s. Ctrl-C here is"
                                    + " the unplug, and the end.",
                            line.durationS()));
            new CountDownLatch(1).await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        return ExitCode.DONE;
    }

    private static String command(SimulatedLine line, Path vehicle) {
        String points =
                line.plan().stream().map(PlannedCapture::point).collect(Collectors.joining(","));
        StringBuilder words = new StringBuilder("tickover record --vehicle ");
        words.append(ShellWord.of(vehicle.toString()));
        for (RecordLine l : line.lines()) {
            words.append(l.info().role() == Role.ADAPTER ? " --obd " : " --port ");
            words.append(l.info().port());
        }
        return words.append(" --points ").append(points).toString();
    }
}

package tickover.cli;

import java.nio.file.Path;
import java.util.List;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.drive.Condition;
import tickover.session.PlannedCapture;
import tickover.session.SourceInfo;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.session.VirtualRecording;
import tickover.sim.EndlessScene;
import tickover.sim.LibraryPool;
import tickover.sim.LineTrouble;
import tickover.sim.SimulatedProbe;
import tickover.store.VisitFolder;

/** A recording of two points on a simulated engine, with a tach. */
final class WalkRecording {
    private WalkRecording() {}

    static void write(Path file) {
        EndlessScene scene =
                new EndlessScene(
                        new EndlessScene.Turning(780, 0.01, 7),
                        List.of(new EndlessScene.Tone(1, 0.4, 0), new EndlessScene.Tone(2, 1, 1)),
                        0.2,
                        1);
        SimulatedProbe probe = new SimulatedProbe(SimulatedProbe.Spec.ordinary(8000, 40), scene);
        SourceInfo info = SourceInfo.of(Role.PROBE, Language.FRAMES, "simulated", 500_000, "7");
        new VirtualRecording(
                        List.of(
                                new VirtualRecording.Device(
                                        info, probe, new LineTrouble(LineTrouble.Spec.NONE, 1))))
                .vehicle(VisitFolder.vehicleText(LibraryPool.complaint().vehicle()))
                .capture(at("idler"), 1, 9)
                .capture(at("alternator"), 11, 19)
                .write(file, 20);
    }

    private static PlannedCapture at(String point) {
        return new PlannedCapture(point, "radial", Mount.MAGNET, Regime.IDLE, Condition.UNLOADED);
    }
}

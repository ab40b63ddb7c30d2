package tickover.session;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.drive.Condition;
import tickover.link.ByteLink;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.sim.EndlessScene;
import tickover.sim.LineTrouble;
import tickover.sim.SimulatedProbe;
import tickover.store.Log;

/**
 * A process that records and imports, over and over, until it is killed, and says meanwhile up to
 * when it has taken bytes. Arguments: a folder for the recordings, a data folder.
 */
final class RecordingChild {
    private static final double LENGTH_S = 2.2;

    private static final long BEAT_MS = 20;

    private RecordingChild() {}

    /** When this process last took bytes from its probe, ns since 1970. */
    private static volatile long tookNanos;

    /** Notes when bytes are taken. */
    private static ByteLink watched(ByteLink link) {
        return new LinkThrough(link) {
            @Override
            public int read(byte[] into) {
                int count = super.read(into);
                if (count > 0) {
                    Instant now = Instant.now();
                    tookNanos = 1_000_000_000L * now.getEpochSecond() + now.getNano();
                }
                return count;
            }
        };
    }

    /** Says again and again what this process has taken: after a kill nobody else knows. */
    private static void beat() {
        try {
            while (true) {
                System.out.printf("took %019d%n", tookNanos);
                Thread.sleep(BEAT_MS);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    public static void main(String[] args) throws InterruptedException {
        Path recordings = Path.of(args[0]);
        Path data = Path.of(args[1]);
        EndlessScene scene =
                new EndlessScene(
                        new EndlessScene.Turning(780, 0.01, 5),
                        List.of(new EndlessScene.Tone(2, 1, 0)),
                        0.1,
                        1);
        Thread heart = new Thread(RecordingChild::beat, "heart");
        heart.setDaemon(true);
        while (true) {
            Path file = recordings.resolve(UUID.randomUUID() + ".tkr");
            SimulatedLink link =
                    new SimulatedLink(
                            "simulated",
                            new SimulatedProbe(SimulatedProbe.Spec.ordinary(8000, 40), scene),
                            new LineTrouble(LineTrouble.Spec.NONE, 1),
                            System.nanoTime());
            RecordPlan plan =
                    new RecordPlan(
                            file,
                            "",
                            List.of(
                                    new PlannedCapture(
                                            "idler",
                                            "radial",
                                            Mount.HAND,
                                            Regime.IDLE,
                                            Condition.UNLOADED)),
                            false,
                            LENGTH_S,
                            0,
                            0,
                            1,
                            "crank");
            SourceInfo info = SourceInfo.of(Role.PROBE, Language.FRAMES, "simulated", 0, "1007");
            try (Recorder recorder =
                    Recorder.start(
                            plan,
                            List.of(new RecordLine(info, () -> watched(link))),
                            Clock.systemUTC(),
                            b -> {})) {
                System.out.println("recording " + file);
                if (heart.getState() == Thread.State.NEW) {
                    heart.start();
                }
                while (!recorder.await(1)) {
                    // Goes on until its length is reached.
                }
            }
            Path folder = recordings.resolve(file.getFileName() + ".visit");
            RecordingVisit.Made made =
                    RecordingVisit.write(file, RecordingVisit.About.NOTHING, folder);
            try (Log log = Log.open(data)) {
                log.importVisit(made.visit());
            }
        }
    }
}

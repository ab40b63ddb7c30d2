package tickover.session;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.sim.EndlessScene;
import tickover.sim.LineTrouble;
import tickover.sim.SimulatedAdapter;
import tickover.sim.SimulatedProbe;

/**
 * A day's recording made into a visit folder. Prints how long that took; that it ends says that the
 * heap does. Arguments: a folder for the files, hours, sample rate in Hz; start it with the heap
 * that has to do, such as {@code -Xmx96m}.
 *
 * <p>Run its main class on the test class path; {@code docs/acquisition.md} has a recorded run.
 */
final class LongImportBench {
    private LongImportBench() {}

    public static void main(String[] args) throws IOException {
        Path folder = Files.createDirectories(Path.of(args[0]));
        double hours = args.length > 1 ? Double.parseDouble(args[1]) : 24;
        int rateHz = args.length > 2 ? Integer.parseInt(args[2]) : 3200;
        Path file = folder.resolve("day.tkr");
        if (!Files.exists(file)) {
            EndlessScene scene =
                    new EndlessScene(
                            new EndlessScene.Turning(780, 0.02, 30),
                            List.of(new EndlessScene.Tone(2, 1, 0)),
                            0.1,
                            1);
            new VirtualRecording(
                            List.of(
                                    new VirtualRecording.Device(
                                            SourceInfo.of(Role.PROBE, Language.FRAMES, "p", 0, "1"),
                                            new SimulatedProbe(
                                                    SimulatedProbe.Spec.ordinary(rateHz, 40),
                                                    scene),
                                            new LineTrouble(
                                                    new LineTrouble.Spec(0, 0, 0, 0.016), 3)),
                                    new VirtualRecording.Device(
                                            SourceInfo.of(
                                                    Role.ADAPTER, Language.COMMANDS, "o", 0, ""),
                                            new SimulatedAdapter(
                                                    SimulatedAdapter.Spec.ORDINARY, scene, 5),
                                            new LineTrouble(LineTrouble.Spec.NONE, 4))))
                    .write(file, hours * 3600);
        }
        long began = System.nanoTime();
        Path visit = folder.resolve("visit-" + began);
        RecordingVisit.Made made = RecordingVisit.write(file, RecordingVisit.About.NOTHING, visit);
        double tookS = (System.nanoTime() - began) / 1e9;
        System.out.printf(
                Locale.ROOT,
                "%.1f h at %d Hz: %.0f MB of recording, %d captures, %.0f s, in a heap of"
                        + " %.0f MB%n",
                hours,
                rateHz,
                Files.size(file) / 1e6,
                made.visit().captures().size(),
                tookS,
                Runtime.getRuntime().maxMemory() / 1e6);
        made.remarks().forEach(System.out::println);
    }
}

package tickover.console;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadInfo;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.FutureTask;
import javafx.application.Platform;
import javafx.scene.Scene;
import javafx.stage.Stage;
import tickover.align.AlignedBlock;
import tickover.console.model.ConsoleModel;
import tickover.console.model.ConsoleOptions;
import tickover.console.model.Screen;
import tickover.link.Chunk;
import tickover.link.SerialLink;
import tickover.session.LiveFrame;
import tickover.session.LivePipeline;
import tickover.session.RecordLine;
import tickover.session.RecordPlan;
import tickover.session.Recorder;
import tickover.session.SimulatedLink;
import tickover.session.SimulatedPort;
import tickover.session.SourceInfo;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.session.StreamListener;
import tickover.sim.EndlessScene;
import tickover.sim.LineTrouble;
import tickover.sim.SimulatedProbe;
import tickover.sim.SimulatedVan;
import tickover.store.VisitFolder;
import tickover.unit.HostNanos;

/**
 * Measures the live screen: a probe of three axes at 25.6 kHz behind a simulated port, recorded,
 * derived and drawn for some minutes. Run by hand; {@code docs/console.md} has the command and the
 * figures. Processor time is counted thread by thread, so that other work on the machine and the
 * simulation of the probe do not count; delays are real time and do suffer from other work.
 */
final class LiveFigures {
    private static final int RATE_HZ = 25_600;
    private static final int BAUD = 3_000_000;
    private static final double LOOK_S = 30;
    private static final double WARM_UP_S = 20;

    private final Path folder;
    private final double lengthS;
    private final boolean hears;
    private final List<Double> delaysS = new ArrayList<>();
    private OrderFall fall;
    private LiveModelWatch watch;

    private LiveFigures(Path folder, double lengthS, boolean hears) {
        this.hears = hears;
        this.folder = folder;
        this.lengthS = lengthS;
    }

    /** Notes when samples came, by the system's clock. */
    private static final class LiveModelWatch implements StreamListener {
        private final LivePipeline live;
        private volatile double offsetS = Double.POSITIVE_INFINITY;

        LiveModelWatch(LivePipeline live) {
            this.live = live;
        }

        @Override
        public void told(Chunk chunk) {
            // The recording's clock against the system's: by the chunk that was told most quickly.
            double now = System.nanoTime() / 1e9;
            offsetS = Math.min(offsetS, now - chunk.at().secondsAfter(new HostNanos(0)));
            live.told(chunk);
        }

        @Override
        public void block(AlignedBlock block) {
            live.block(block);
        }

        double sinceS(double arrivalS) {
            return System.nanoTime() / 1e9 - offsetS - arrivalS;
        }
    }

    /**
     * Measures.
     *
     * @param args length, s; folder for the recording and a log; {@code hear} for a part to be
     *     heard meanwhile
     */
    public static void main(String[] args) throws Exception {
        boolean hears = args.length > 2 && args[2].equals("hear");
        new LiveFigures(Path.of(args[1]), Double.parseDouble(args[0]), hears).run();
        System.exit(0);
    }

    private static <T> T onScreen(Callable<T> work) throws Exception {
        FutureTask<T> task = new FutureTask<>(work);
        Platform.runLater(task);
        return task.get();
    }

    private void run() throws Exception {
        Files.createDirectories(folder);
        CountDownLatch up = new CountDownLatch(1);
        Platform.startup(up::countDown);
        up.await();
        ScreenErrands errands = new ScreenErrands();
        ConsoleModel console =
                onScreen(
                        () -> {
                            ConsoleModel made =
                                    new ConsoleModel(new ConsoleOptions(folder, true), errands);
                            Scene scene = new Shell(made).scene(1280, 800);
                            Stage stage = new Stage();
                            stage.setScene(scene);
                            stage.show();
                            made.vehicles().load();
                            return made;
                        });
        onScreen(() -> null);
        double wallS =
                (System.currentTimeMillis() - ManagementFactory.getRuntimeMXBean().getStartTime())
                        / 1e3;
        System.out.printf(
                Locale.ROOT,
                "first window          %.1f s of processor, %.1f s by the clock%n",
                processS(),
                wallS);
        measure(console);
        errands.close();
        Platform.exit();
    }

    private void measure(ConsoleModel console) throws Exception {
        SimulatedVan van = new SimulatedVan(false);
        EndlessScene scene =
                new EndlessScene(
                        new EndlessScene.Turning(820, 0.02, 7),
                        List.of(
                                new EndlessScene.Tone(2, 1, 0),
                                new EndlessScene.Tone(5.13, 0.1, 1),
                                new EndlessScene.Tone(8.42, 0.3, 2)),
                        0.5,
                        3);
        SimulatedPort port =
                new SimulatedPort(
                        new SimulatedLink(
                                "probe",
                                new SimulatedProbe(
                                        SimulatedProbe.Spec.ordinary(RATE_HZ, 160), scene),
                                new LineTrouble(new LineTrouble.Spec(0, 0, 0.001, 0), 1),
                                System.nanoTime()));
        RecordLine line =
                new RecordLine(
                        SourceInfo.of(Role.PROBE, Language.FRAMES, port.path(), BAUD, "probe"),
                        () -> SerialLink.open(port.path(), BAUD));
        Path file = folder.resolve("figures-" + System.nanoTime() + ".tkr");
        RecordPlan plan =
                new RecordPlan(
                        file,
                        VisitFolder.vehicleText(van.vehicle()),
                        List.of(),
                        true,
                        10,
                        0,
                        0,
                        1,
                        "crank");
        LivePipeline live = new LivePipeline();
        watch = new LiveModelWatch(live);
        try (Recorder recorder = Recorder.start(plan, List.of(line), Clock.systemUTC(), watch)) {
            takeTheVan(console);
            onScreen(() -> look(console, van, live));
            Thread.sleep(Math.round(1000 * WARM_UP_S));
            watchFor(console);
            System.out.println("recording failed      " + recorder.status().failure());
        } finally {
            port.close();
            Files.deleteIfExists(file);
        }
    }

    private Object look(ConsoleModel console, SimulatedVan van, LivePipeline live) {
        console.live().attach(live, van.vehicle());
        console.live().choose("idler");
        if (hears) {
            console.live().hear();
        }
        Scene scene = javafx.stage.Window.getWindows().get(0).getScene();
        console.go(Screen.LIVE);
        scene.getRoot().applyCss();
        fall = (OrderFall) scene.lookup("#fall");
        new javafx.animation.AnimationTimer() {
            private long last = -1;

            @Override
            public void handle(long now) {
                LiveFrame f = console.live().frame().orElse(null);
                if (f != null && f.number() != last) {
                    last = f.number();
                    synchronized (delaysS) {
                        delaysS.add(watch.sinceS(f.arrivalS()));
                    }
                }
            }
        }.start();
        return this;
    }

    private static void takeTheVan(ConsoleModel console) throws Exception {
        onScreen(
                () -> {
                    console.vehicles().enterSimulated();
                    return console.saveDrive();
                });
        while (onScreen(() -> console.unit().get().isEmpty())) {
            Thread.sleep(50);
        }
    }

    private void watchFor(ConsoleModel console) throws Exception {
        System.out.println(
                "time s  frames/s  of a core, all   by thread                  heap MB  all MB");
        double endS = System.nanoTime() / 1e9 + lengthS;
        Map<String, Double> before = threads();
        double processBefore = processS();
        long framesBefore = fall.framesDrawn();
        double last = System.nanoTime() / 1e9;
        double begun = last;
        while (System.nanoTime() / 1e9 < endS) {
            Thread.sleep(Math.round(1000 * LOOK_S));
            double now = System.nanoTime() / 1e9;
            Map<String, Double> after = threads();
            double process = processS();
            long frames = fall.framesDrawn();
            double span = now - last;
            double simulated = since(before, after, "simulation");
            System.out.printf(
                    Locale.ROOT,
                    "%6.0f  %8.1f  %16.1f  ",
                    now - begun,
                    (frames - framesBefore) / span,
                    100 * (process - processBefore - simulated) / span);
            for (String name : after.keySet()) {
                double share = 100 * since(before, after, name) / span;
                if (share >= 0.5 && !name.equals("simulation")) {
                    System.out.printf(Locale.ROOT, "%s %.1f, ", name, share);
                }
            }
            System.gc();
            var heap = ManagementFactory.getMemoryMXBean().getHeapMemoryUsage();
            System.out.printf(Locale.ROOT, " %5.1f  %5.0f%n", heap.getUsed() / 1e6, residentMb());
            before = threads();
            processBefore = processS();
            framesBefore = fall.framesDrawn();
            last = System.nanoTime() / 1e9;
        }
        delays();
        System.out.println("rows                  " + console.live().fall().rows());
    }

    private void delays() {
        double[] sorted;
        synchronized (delaysS) {
            sorted = delaysS.stream().mapToDouble(Double::doubleValue).toArray();
        }
        Arrays.sort(sorted);
        System.out.printf(
                Locale.ROOT,
                "arrival to drawn      median %.0f ms, 95 %% below %.0f ms, 99 %% below %.0f ms%n",
                1e3 * sorted[sorted.length / 2],
                1e3 * sorted[sorted.length * 95 / 100],
                1e3 * sorted[sorted.length * 99 / 100]);
    }

    private static double since(Map<String, Double> before, Map<String, Double> after, String key) {
        return after.getOrDefault(key, 0.0) - before.getOrDefault(key, 0.0);
    }

    /** Processor time of every thread by what it does, s. */
    private static Map<String, Double> threads() {
        var bean = ManagementFactory.getThreadMXBean();
        Map<String, Double> out = new TreeMap<>();
        for (long id : bean.getAllThreadIds()) {
            ThreadInfo info = bean.getThreadInfo(id);
            long ns = bean.getThreadCpuTime(id);
            if (info != null && ns > 0) {
                out.merge(job(info.getThreadName()), ns / 1e9, Double::sum);
            }
        }
        return out;
    }

    private static String job(String thread) {
        return thread.startsWith("tickover-simulated")
                ? "simulation"
                : thread.startsWith("tickover-") ? thread.substring(9) : thread.replace(' ', '-');
    }

    private static double processS() {
        var bean =
                (com.sun.management.OperatingSystemMXBean)
                        ManagementFactory.getOperatingSystemMXBean();
        return bean.getProcessCpuTime() / 1e9;
    }

    private static double residentMb() throws IOException {
        for (String line : Files.readAllLines(Path.of("/proc/self/status"))) {
            if (line.startsWith("VmRSS:")) {
                return Double.parseDouble(line.replaceAll("[^0-9]", "")) / 1e3;
            }
        }
        return Double.NaN;
    }
}

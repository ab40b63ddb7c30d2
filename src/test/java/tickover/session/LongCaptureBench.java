package tickover.session;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import tickover.align.AlignedBlock;
import tickover.align.ClockFit;
import tickover.align.SampleRun;
import tickover.align.StreamGap;
import tickover.link.Chunk;
import tickover.session.SourceInfo.Language;
import tickover.session.SourceInfo.Role;
import tickover.sim.EndlessScene;
import tickover.sim.LineTrouble;
import tickover.sim.SimulatedProbe;
import tickover.unit.HostNanos;
import tickover.wire.FrameWriter;

/**
 * A day of recording through the live pipeline as fast as it goes: a probe with a drifting crystal
 * behind a converter that holds bytes back. Prints for every hour the memory in use after a
 * collection, and how far the clock is off beside what it says of itself. Arguments: hours, sample
 * rate in Hz.
 *
 * <p>Run its main class on the test class path; {@code docs/acquisition.md} has a recorded run.
 */
final class LongCaptureBench {
    private static final double STEP_S = 0.02;
    private static final double PING_EVERY_S = 2;

    /** A short frame at 500 kBd. */
    private static final double WIRE_S = 0.0002;

    private static final double NANOS_PER_S = 1e9;

    /** A crystal that warms up by one part in a million an hour. */
    private static final double DRIFT_PER_S = 1e-6 / 3600;

    private final SimulatedProbe probe;
    private final StreamPipeline pipeline = new StreamPipeline(this::derived);
    private final LiveMeter meter = new LiveMeter(r -> {});
    private final LineTrouble line = new LineTrouble(new LineTrouble.Spec(0, 0, 0, 0.016), 7);
    private final FrameWriter writer = new FrameWriter();
    private SampleRun last;
    private long samples;
    private long gaps;
    private double worstRatio;

    private LongCaptureBench(SimulatedProbe probe) {
        this.probe = probe;
    }

    public static void main(String[] args) {
        double hours = args.length > 0 ? Double.parseDouble(args[0]) : 24;
        int rateHz = args.length > 1 ? Integer.parseInt(args[1]) : 3200;
        EndlessScene scene =
                new EndlessScene(
                        new EndlessScene.Turning(780, 0.02, 30),
                        List.of(new EndlessScene.Tone(2, 1, 0)),
                        0.1,
                        1);
        SimulatedProbe.Spec spec =
                new SimulatedProbe.Spec(
                        rateHz, 1, 16_000_000, 25e-6, DRIFT_PER_S, 16, 40, 4_000_000_000L, 1);
        new LongCaptureBench(new SimulatedProbe(spec, scene)).run(hours);
    }

    private void run(double hours) {
        SourceInfo info = SourceInfo.of(Role.PROBE, Language.FRAMES, "simulated", 0, "1");
        accept(new Chunk(Chunk.Kind.SOURCE, 0, at(0), info.json()));
        probe.hear(send(0, writer.identify().start().take()), 0);
        System.out.printf(
                "%6s %10s %12s %12s %14s%n", "hour", "heap, MB", "off, µs", "said, µs", "gaps");
        long began = System.nanoTime();
        double arrivedS = 0;
        double pingS = PING_EVERY_S;
        int hour = 0;
        long ping = 0;
        long steps = Math.round(hours * 3600 / STEP_S);
        for (long i = 1; i <= steps; i++) {
            double nowS = i * STEP_S;
            if (nowS >= pingS) {
                pingS += PING_EVERY_S;
                double sentS = nowS - STEP_S / 2;
                arrivedS = receive(sentS, arrivedS);
                probe.hear(send(sentS, writer.ping(ping++).take()), sentS + WIRE_S);
                arrivedS = receive(sentS + WIRE_S, arrivedS);
            }
            arrivedS = receive(nowS, arrivedS);
            if (nowS >= 60) {
                check();
            }
            if (nowS >= 3600.0 * (hour + 1)) {
                hour++;
                report(hour);
            }
        }
        double tookS = (System.nanoTime() - began) / NANOS_PER_S;
        System.out.printf(
                Locale.ROOT,
                "%d samples in %.1f s, %.0f times real time; %d gaps; clock at worst %.2f of what"
                        + " it says%n",
                samples,
                tookS,
                hours * 3600 / tookS,
                gaps,
                worstRatio);
    }

    /** What the probe has sent by a time arrives late; returns when. */
    private double receive(double nowS, double afterS) {
        byte[] bytes = probe.sentBy(nowS);
        if (bytes.length == 0) {
            return afterS;
        }
        double arrivedS = Math.max(afterS, line.arrivalS(nowS + WIRE_S));
        accept(new Chunk(Chunk.Kind.IN, 0, at(arrivedS), bytes));
        return arrivedS;
    }

    private byte[] send(double nowS, byte[] bytes) {
        accept(new Chunk(Chunk.Kind.OUT, 0, at(nowS), bytes));
        return bytes;
    }

    private static HostNanos at(double timeS) {
        return new HostNanos(Math.round(timeS * NANOS_PER_S));
    }

    private void accept(Chunk chunk) {
        pipeline.accept(chunk);
    }

    private void derived(AlignedBlock block) {
        meter.accept(block);
        if (block instanceof SampleRun run) {
            samples += run.count();
            last = run;
        } else if (block instanceof StreamGap) {
            gaps++;
        }
    }

    private double offS(ClockFit fit) {
        double tick = (double) last.firstTick().value();
        double host = (double) fit.origin().value() / NANOS_PER_S + fit.hostSecondsAt(tick);
        return host - probe.trueTimeS(tick);
    }

    private void check() {
        Optional<ClockFit> fit = pipeline.clock(0);
        if (fit.isPresent()) {
            double said = fit.get().errorAtS((double) last.firstTick().value());
            worstRatio = Math.max(worstRatio, Math.abs(offS(fit.get())) / said);
        }
    }

    private void report(int hour) {
        System.gc();
        Runtime runtime = Runtime.getRuntime();
        double usedMb = (runtime.totalMemory() - runtime.freeMemory()) / 1e6;
        ClockFit fit = pipeline.clock(0).orElseThrow();
        System.out.printf(
                Locale.ROOT,
                "%6d %10.1f %12.1f %12.1f %14d%n",
                hour,
                usedMb,
                1e6 * offS(fit),
                1e6 * fit.errorAtS((double) last.firstTick().value()),
                gaps);
    }
}

package tickover.sim;

import java.util.Objects;
import tickover.wire.ButtonEvent;
import tickover.wire.CommandAnswer;
import tickover.wire.CommandDecoder;
import tickover.wire.CommandSink;
import tickover.wire.FrameTypes;
import tickover.wire.FrameWriter;
import tickover.wire.Hello;
import tickover.wire.Pong;
import tickover.wire.ProbeStatus;
import tickover.wire.Rejection;
import tickover.wire.SensorKind;

/**
 * A probe on a simulated line: speaks the probe protocol, with a crystal that is off, samples that
 * follow its ticks, tach edges, a button and a status. One thread.
 */
public final class SimulatedProbe implements SimulatedDevice {
    /**
     * What the board is like.
     *
     * @param rateNum numerator of the sample rate by its own clock, Hz
     * @param rateDen denominator of the sample rate
     * @param tickHz ticks per second by its own clock; a multiple of the sample rate
     * @param clockErrorRatio how much faster than true its clock runs, relative
     * @param clockDriftPerS how fast that changes, relative per s
     * @param bits 16 or 24
     * @param fullScaleMps2 end of the range, m/s²
     * @param firstTick what its tick counter shows at power-up
     * @param device serial number
     */
    public record Spec(
            long rateNum,
            long rateDen,
            long tickHz,
            double clockErrorRatio,
            double clockDriftPerS,
            int bits,
            double fullScaleMps2,
            long firstTick,
            long device) {
        public Spec {
            if (!(rateNum > 0 && rateDen > 0 && tickHz > 0 && tickHz * rateDen % rateNum == 0)) {
                throw new IllegalArgumentException(
                        "rate="
                                + rateNum
                                + "/"
                                + rateDen
                                + " Hz, tickHz="
                                + tickHz
                                + ", need whole ticks per sample");
            }
            if (!(Math.abs(clockErrorRatio) < 0.1)) {
                throw new IllegalArgumentException(
                        "clockErrorRatio=" + clockErrorRatio + ", need below 0.1");
            }
        }

        /**
         * A 16-bit probe at 16 MHz with a crystal 20 ppm fast.
         *
         * @param rateHz sample rate, a divisor of 16 MHz
         * @param fullScaleMps2 end of the range, m/s²
         * @return the description
         */
        public static Spec ordinary(int rateHz, double fullScaleMps2) {
            return new Spec(
                    rateHz, 1, 16_000_000, 20e-6, 0, 16, fullScaleMps2, 4_000_000_000L, 1007);
        }

        double rateHz() {
            return (double) rateNum / rateDen;
        }

        long ticksPerSample() {
            return tickHz * rateDen / rateNum;
        }
    }

    private static final double EDGES_EVERY_S = 0.1;
    private static final double STATUS_EVERY_S = 1;
    private static final int SAMPLE_ROOM_BYTES = 239;
    private static final int MOST_EDGES = 60;
    private static final int CANNOT = 2;
    private static final int NOT_NOW = 3;

    /** 31.0 °C. */
    private static final int TEMPERATURE = 310;

    private static final int SUPPLY_MV = 5000;

    private final Spec spec;
    private final LineScene scene;
    private final FrameWriter writer = new FrameWriter();
    private final CommandDecoder commands = new CommandDecoder();
    private final int perBlock;
    private final double[] accel;
    private final int[] counts;
    private double bootS;
    private int boot = 1;
    private boolean sampling;
    private double startedTick;
    private long sent;
    private int edgeNumber;
    private double edgesFromS;
    private double nextStatusS;
    private double pressesFromS;
    private int presses;
    private int badCommands;
    private double heardS;

    /**
     * Powers it up at time 0.
     *
     * @param spec what the board is like
     * @param scene what it feels
     */
    public SimulatedProbe(Spec spec, LineScene scene) {
        this.spec = Objects.requireNonNull(spec, "spec");
        this.scene = Objects.requireNonNull(scene, "scene");
        int bytesPerSample = scene.axes() * spec.bits() / 8;
        this.perBlock = SAMPLE_ROOM_BYTES / bytesPerSample;
        this.accel = new double[perBlock * scene.axes()];
        this.counts = new int[perBlock * scene.axes()];
        hello();
    }

    /** Ticks since power-up at a true time. */
    private double ticksSinceBoot(double timeS) {
        double sinceS = timeS - bootS;
        double fast = spec.clockErrorRatio() + spec.clockDriftPerS() * sinceS / 2;
        return spec.tickHz() * sinceS * (1 + fast);
    }

    /** True time at which the clock has made so many ticks since power-up. */
    private double timeOf(double ticks) {
        double nominalS = ticks / spec.tickHz();
        double sinceS = nominalS / (1 + spec.clockErrorRatio());
        for (int i = 0; i < 4; i++) {
            double fast = spec.clockErrorRatio() + spec.clockDriftPerS() * sinceS / 2;
            sinceS = nominalS / (1 + fast);
        }
        return bootS + sinceS;
    }

    /**
     * Tells when a tick truly was, for whoever judges a clock.
     *
     * @param tick tick of the probe's clock, without wrap, counted on from the first tick
     * @return true time, s
     */
    public double trueTimeS(double tick) {
        return timeOf(tick - spec.firstTick());
    }

    private long shown(double ticksSinceBoot) {
        return (spec.firstTick() + (long) Math.floor(ticksSinceBoot)) & 0xFFFFFFFFL;
    }

    @Override
    public void hear(byte[] bytes, double atS) {
        heardS = atS;
        commands.feed(bytes, 0, bytes.length, new Ears());
    }

    /** Does what the host says. */
    private final class Ears implements CommandSink {
        @Override
        public void ping(long id) {
            long tick = shown(ticksSinceBoot(heardS));
            writer.pong(new Pong(id, tick, tick));
        }

        @Override
        public void identify() {
            hello();
        }

        @Override
        public void start() {
            scene.started(heardS);
            answer(FrameTypes.START, 0);
            hello();
            sampling = true;
            // Sampling starts with a whole sample period of the tick clock.
            long perSample = spec.ticksPerSample();
            startedTick = Math.ceil(ticksSinceBoot(heardS) / perSample) * perSample;
            sent = 0;
            edgeNumber = 0;
            edgesFromS = heardS;
            pressesFromS = heardS;
            nextStatusS = heardS + STATUS_EVERY_S;
        }

        @Override
        public void stop() {
            sampling = false;
            answer(FrameTypes.STOP, 0);
        }

        @Override
        public void rate(long num, long den) {
            boolean same = num * spec.rateDen() == den * spec.rateNum();
            answer(FrameTypes.RATE, sampling ? NOT_NOW : same ? 0 : CANNOT);
            if (same && !sampling) {
                hello();
            }
        }

        @Override
        public void unknown(int type) {
            answer(type, 1);
        }

        @Override
        public void rejected(Rejection reason, int bytes) {
            badCommands++;
        }
    }

    private void answer(int command, int result) {
        writer.answer(new CommandAnswer(command, result));
    }

    private void hello() {
        writer.hello(
                new Hello(
                        Hello.MAJOR,
                        0,
                        spec.device(),
                        boot,
                        SensorKind.ANALOG_MEMS,
                        scene.axes(),
                        spec.bits(),
                        spec.bits(),
                        spec.fullScaleMps2(),
                        spec.rateNum(),
                        spec.rateDen(),
                        spec.tickHz(),
                        0,
                        true,
                        true,
                        true,
                        "simulated probe"));
    }

    @Override
    public byte[] sentBy(double nowS) {
        if (sampling) {
            samples(nowS);
            edges(nowS);
            presses(nowS);
            if (nowS >= nextStatusS) {
                nextStatusS += STATUS_EVERY_S;
                writer.status(
                        new ProbeStatus(
                                shown(ticksSinceBoot(nowS)),
                                0,
                                badCommands,
                                TEMPERATURE,
                                SUPPLY_MV));
            }
        }
        return writer.take();
    }

    private void samples(double nowS) {
        long perSample = spec.ticksPerSample();
        double countMps2 = spec.fullScaleMps2() / (1L << (spec.bits() - 1));
        while (true) {
            // A block leaves when its last sample has been taken.
            double lastTick = startedTick + (double) (sent + perBlock - 1) * perSample;
            if (timeOf(lastTick) > nowS) {
                return;
            }
            double firstTick = startedTick + (double) sent * perSample;
            double firstS = timeOf(firstTick);
            double stepS = (timeOf(lastTick) - firstS) / (perBlock - 1);
            scene.accelMps2(firstS, stepS, perBlock, accel);
            boolean atLimit = false;
            int most = (1 << (spec.bits() - 1)) - 1;
            for (int i = 0; i < accel.length; i++) {
                long count = Math.round(accel[i] / countMps2);
                atLimit |= count >= most || count <= -most - 1;
                counts[i] = (int) Math.max(-most - 1L, Math.min(most, count));
            }
            writer.samples(
                    sent & 0xFFFFFFFFL,
                    shown(firstTick),
                    scene.axes(),
                    spec.bits(),
                    atLimit,
                    counts,
                    0,
                    perBlock);
            sent += perBlock;
        }
    }

    private void edges(double nowS) {
        if (nowS < edgesFromS + EDGES_EVERY_S) {
            return;
        }
        double[] times = scene.passagesS(edgesFromS, nowS);
        edgesFromS = nowS;
        for (int from = 0; from < times.length; from += MOST_EDGES) {
            int n = Math.min(MOST_EDGES, times.length - from);
            long[] ticks = new long[n];
            for (int i = 0; i < n; i++) {
                ticks[i] = shown(ticksSinceBoot(times[from + i]));
            }
            writer.tach(edgeNumber, 0, ticks, 0, n);
            edgeNumber = (edgeNumber + n) & 0xFFFF;
        }
    }

    private void presses(double nowS) {
        for (double t : scene.pressesS(pressesFromS, nowS)) {
            presses = (presses + 1) & 0xFFFF;
            long tick = shown(ticksSinceBoot(t));
            writer.button(new ButtonEvent(tick, 0, true, presses));
            writer.button(new ButtonEvent(tick, 0, false, presses));
        }
        pressesFromS = nowS;
    }

    @Override
    public void powerCycle(double atS) {
        bootS = atS;
        boot++;
        sampling = false;
        presses = 0;
        writer.take();
        hello();
    }
}

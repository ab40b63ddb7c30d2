package tickover.align;

import java.util.Random;
import tickover.unit.HostNanos;

/**
 * A device with a clock of exactly known rate, behind a line that delays: frames at an even rate,
 * answers to pings at uneven times. Nothing overtakes anything.
 */
final class SimulatedLine {
    /** How long what was sent waits before the host has it, beyond the constant part. */
    enum Delay {
        /** Anything from 0 to 16 ms. */
        UNIFORM(false),
        /** Mostly short: mean 4 ms. */
        EXPONENTIAL(false),
        /** A converter that empties itself every 16 ms by its own clock. */
        TIMER_16_MS(true),
        /** The same with 50 ms. */
        TIMER_50_MS(true),
        /** Up to 3 ms, and now and then the host looks away for up to 2 s. */
        BURSTS(false);

        /** Whether the delays keep step with the frames, so that only pings tell skew from it. */
        final boolean needsPings;

        Delay(boolean needsPings) {
            this.needsPings = needsPings;
        }
    }

    static final double TICK_HZ = 1e6;
    private static final double FRAMES_HZ = 46; // 250-byte frames on a full line of 115200 baud
    private static final double PINGS_HZ = 4; // as docs/time.md asks for

    final double skew;
    final double constantS;
    private final Delay delay;
    private final boolean pings;
    private final Random random;
    private final long firstTick;
    private final double hostAtFirstS;
    private final double timerPhaseS;
    private final double timerS;
    private double nextFrameS;
    private double nextPingS;
    private double busyUntilS;
    private double lastInS;
    private double hostStepS;
    private long deviceStepTicks;
    private double swing;
    private double swingPeriodS = 1;

    /** Skew is host seconds per device second, less 1. */
    SimulatedLine(long seed, double skew, Delay delay, boolean pings) {
        this.random = new Random(seed);
        this.skew = skew;
        this.delay = delay;
        this.pings = pings;
        constantS = 0.2e-3 + 1e-3 * random.nextDouble();
        firstTick = random.nextInt(1_000_000_000);
        hostAtFirstS = 1000 * random.nextDouble();
        double timerSkew = 100e-6 * (2 * random.nextDouble() - 1);
        timerS = (delay == Delay.TIMER_50_MS ? 0.05 : 0.016) * (1 + timerSkew);
        timerPhaseS = timerS * random.nextDouble();
        nextPingS = random.nextDouble() / PINGS_HZ;
    }

    /** The device's rate swings with the temperature, by this much either way. */
    void swing(double ratio, double periodS) {
        swing = ratio;
        swingPeriodS = periodS;
    }

    /** Host seconds per device second at a tick. */
    double rateAt(double tick) {
        double deviceS = (tick - firstTick - deviceStepTicks) / TICK_HZ;
        return 1 + skew + swing * Math.cos(2 * Math.PI * deviceS / swingPeriodS);
    }

    private double realS(double deviceS) {
        double turn = 2 * Math.PI / swingPeriodS;
        return (1 + skew) * deviceS + swing / turn * Math.sin(turn * deviceS);
    }

    /** The host's clock is moved on. */
    void stepHost(double stepS) {
        hostStepS += stepS;
    }

    /** The device's clock is moved on. */
    void stepDevice(double stepS) {
        deviceStepTicks += Math.round(stepS * TICK_HZ);
    }

    /** The host looks away. */
    void stall(double durationS) {
        busyUntilS = Math.max(busyUntilS, nextFrameS + durationS);
    }

    /** Host time of a device tick now, s. */
    double hostSecondsAt(double tick) {
        return hostAtFirstS + hostStepS + realS((tick - firstTick - deviceStepTicks) / TICK_HZ);
    }

    /** Runs on until so many seconds have passed; returns whether a step was called. */
    boolean runTo(double untilS, ClockTracker tracker) {
        boolean stepped = false;
        while (Math.min(nextFrameS, pings ? nextPingS : nextFrameS) < untilS) {
            if (pings && nextPingS < nextFrameS) {
                double askedS = nextPingS;
                double heardS = askedS + 0.2e-3 + constantS / 2 - 0.3e-3 * log();
                double saidS = heardS + 0.05e-3 + 0.2e-3 * random.nextDouble();
                stepped |= tracker.ping(host(askedS), tick(heardS), tick(saidS), host(in(saidS)));
                nextPingS += (0.5 + random.nextDouble()) / PINGS_HZ;
            } else {
                long tick = tick(nextFrameS);
                stepped |= tracker.arrival(tick, host(in(nextFrameS)));
                nextFrameS += 1 / FRAMES_HZ;
            }
        }
        return stepped;
    }

    private double log() {
        return Math.log(1 - random.nextDouble());
    }

    private double in(double sentS) {
        double s = sentS + constantS;
        if (delay == Delay.BURSTS && random.nextInt(300) == 0) {
            busyUntilS = Math.max(busyUntilS, s + 2 * random.nextDouble());
        }
        double late =
                switch (delay) {
                    case UNIFORM -> 0.016 * random.nextDouble();
                    case EXPONENTIAL -> -0.004 * log();
                    case BURSTS -> 0.003 * random.nextDouble();
                    case TIMER_16_MS, TIMER_50_MS ->
                            timerS * Math.ceil((sentS - timerPhaseS) / timerS)
                                    + timerPhaseS
                                    - sentS;
                };
        lastInS = Math.max(lastInS, Math.max(s + late, busyUntilS));
        return lastInS;
    }

    private long tick(double realS) {
        double deviceS = realS / (1 + skew);
        for (int i = 0; i < 3; i++) {
            deviceS += (realS - realS(deviceS)) / (1 + skew);
        }
        return firstTick + deviceStepTicks + Math.round(deviceS * TICK_HZ);
    }

    private HostNanos host(double realS) {
        return new HostNanos(Math.round((hostAtFirstS + hostStepS + realS) * 1e9));
    }
}

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
        UNIFORM("even, 0 to 16 ms"),
        /** Mostly short: mean 4 ms. */
        EXPONENTIAL("exponential, mean 4 ms"),
        /** Anything from 0 to 16 ms, and a host that wakes up 0.1 ms later on average. */
        WAKING("even, 0 to 16 ms, and exponential, mean 0.1 ms"),
        /** The host asks every millisecond by its own clock, and wakes up 0.05 ms later. */
        POLLED("polled each 1 ms, and exponential, mean 0.05 ms"),
        /** A converter that empties itself every 16 ms by its own clock. */
        TIMER_16_MS("16 ms timer"),
        /** The same, with five frames to each four rounds of the timer. */
        BEATING("16 ms timer, a frame each 12.8 ms"),
        /** The same, with a frame to each two rounds of the timer. */
        LOCKED("16 ms timer, a frame each 32 ms"),
        /** The same with 50 ms. */
        TIMER_50_MS("50 ms timer"),
        /** Up to 3 ms, and now and then the host looks away for up to 2 s. */
        BURSTS("up to 3 ms, and up to 2 s looking away"),
        /** 1 to 4 ms, but 15 to 25 ms for ten seconds of each minute. */
        SPELLS("1 to 4 ms, and 15 to 25 ms for 10 s each minute");

        final String words;

        Delay(String words) {
            this.words = words;
        }

        double timerS() {
            return switch (this) {
                case POLLED -> 1e-3;
                case TIMER_16_MS, BEATING, LOCKED -> 16e-3;
                case TIMER_50_MS -> 50e-3;
                default -> 0;
            };
        }

        double frameS() {
            return switch (this) {
                case BEATING -> 12.8e-3;
                case LOCKED -> 32e-3;
                default -> 1.0 / 46; // 250-byte frames on a full line of 115200 baud
            };
        }
    }

    /** When pings go out. */
    enum Pings {
        NONE("no"),
        /** Four a second, at uneven times. */
        FOUR("4/s"),
        /** As the program sends them: five a second for 6 s, then one every 2 s. */
        SPARSE("0.5/s");

        final String words;

        Pings(String words) {
            this.words = words;
        }

        double nextIn(double nowS, Random random) {
            return switch (this) {
                case NONE -> Double.POSITIVE_INFINITY;
                case FOUR -> (0.5 + random.nextDouble()) / 4;
                // The program looks for what is due every 50 ms.
                case SPARSE -> (nowS < 6 ? 0.2 : 2) + 0.05 * random.nextDouble();
            };
        }
    }

    static final double TICK_HZ = 1e6;

    final double skew;
    final double constantS;
    private final Delay delay;
    private final Pings pings;
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
    private double swingPhase;
    private final double spellS;

    /** Skew is host seconds per device second, less 1. */
    SimulatedLine(long seed, double skew, Delay delay, Pings pings) {
        this.random = new Random(seed);
        this.skew = skew;
        this.delay = delay;
        this.pings = pings;
        constantS = 0.2e-3 + 1e-3 * random.nextDouble();
        firstTick = random.nextInt(1_000_000_000);
        hostAtFirstS = 1000 * random.nextDouble();
        double timerSkew = 100e-6 * (2 * random.nextDouble() - 1);
        timerS = delay.timerS() * (1 + timerSkew);
        timerPhaseS = timerS * random.nextDouble();
        nextPingS = random.nextDouble() * Math.min(10, pings.nextIn(0, random));
        spellS = 60 * random.nextDouble();
    }

    /** The device's rate swings with the temperature, by this much either way. */
    void swing(double ratio, double periodS) {
        swing(ratio, periodS, 0);
    }

    /** The same, from elsewhere in the swing. */
    void swing(double ratio, double periodS, double phase) {
        swingPhase = phase;
        swing = ratio;
        swingPeriodS = periodS;
    }

    /** Host seconds per device second at a tick. */
    double rateAt(double tick) {
        double deviceS = (tick - firstTick - deviceStepTicks) / TICK_HZ;
        return 1 + skew + swing * Math.cos(2 * Math.PI * deviceS / swingPeriodS + swingPhase);
    }

    private double realS(double deviceS) {
        double turn = 2 * Math.PI / swingPeriodS;
        return (1 + skew) * deviceS
                + swing / turn * (Math.sin(turn * deviceS + swingPhase) - Math.sin(swingPhase));
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
        while (Math.min(nextFrameS, pings == Pings.NONE ? nextFrameS : nextPingS) < untilS) {
            if (pings != Pings.NONE && nextPingS < nextFrameS) {
                double askedS = nextPingS;
                double heardS = askedS + 0.2e-3 + constantS / 2 - 0.3e-3 * log();
                double saidS = heardS + 0.05e-3 + 0.2e-3 * random.nextDouble();
                stepped |= tracker.ping(host(askedS), tick(heardS), tick(saidS), host(in(saidS)));
                nextPingS += pings.nextIn(nextPingS, random);
            } else {
                long tick = tick(nextFrameS);
                stepped |= tracker.arrival(tick, host(in(nextFrameS)));
                nextFrameS += delay.frameS();
            }
        }
        return stepped;
    }

    /** Device tick of the last frame. */
    double lastTick() {
        return tick(nextFrameS - delay.frameS());
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
                    case WAKING -> 0.016 * random.nextDouble() - 0.1e-3 * log();
                    case POLLED -> timer(sentS) - 0.05e-3 * log();
                    case BURSTS -> 0.003 * random.nextDouble();
                    case SPELLS ->
                            (sentS + spellS) % 60 < 10
                                    ? 0.015 + 0.01 * random.nextDouble()
                                    : 0.001 + 0.003 * random.nextDouble();
                    case TIMER_16_MS, BEATING, LOCKED, TIMER_50_MS -> timer(sentS);
                };
        lastInS = Math.max(lastInS, Math.max(s + late, busyUntilS));
        return lastInS;
    }

    private double timer(double sentS) {
        return timerS * Math.ceil((sentS - timerPhaseS) / timerS) + timerPhaseS - sentS;
    }

    /** The shortest delay, where it has a shortest; s. */
    double leastS() {
        return constantS + (delay == Delay.SPELLS ? 1e-3 : 0);
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

package tickover.diagnose;

import java.util.Arrays;
import java.util.Random;
import tickover.drive.BearingGeometry;
import tickover.drive.BearingOrders;
import tickover.drive.Ring;

/**
 * Records of bearings from closed forms: an impulse train whose jitter accumulates, times a load
 * zone, each impulse ringing down at one frequency, over coloured noise and shaft harmonics.
 */
final class BearingRecords {
    static final double SAMPLE_RATE_HZ = 12_000;

    private static final double RING_HZ = 3_100;
    private static final double RING_DAMPING = 0.04;

    /** Half-width of the loaded arc as a share of a turn; cos-shaped inside. */
    private static final double LOAD_ZONE_TURNS = 0.22;

    private final Random random;
    private final double[] x;
    private final double turnsHz;

    BearingRecords(long seed, double seconds, double turnsHz) {
        this.random = new Random(seed);
        this.x = new double[(int) (seconds * SAMPLE_RATE_HZ)];
        this.turnsHz = turnsHz;
    }

    static BearingGeometry sixTwoOhThree() {
        return new BearingGeometry(8, 6.747, 28.5, 0);
    }

    double[] samples() {
        return Arrays.copyOf(x, x.length);
    }

    /** White noise, and noise coloured by a first-order low pass, each of that rms. */
    BearingRecords noise(double rmsMps2) {
        double low = 0;
        for (int i = 0; i < x.length; i++) {
            low = 0.9 * low + Math.sqrt(1 - 0.81) * random.nextGaussian();
            x[i] += rmsMps2 * (random.nextGaussian() + low);
        }
        return this;
    }

    BearingRecords shaftHarmonics(double amplitudeMps2) {
        for (int h = 1; h <= 12; h++) {
            double phase = 2 * Math.PI * random.nextDouble();
            double amplitude = amplitudeMps2 * (0.3 + random.nextDouble());
            for (int i = 0; i < x.length; i++) {
                double turns = turnsHz * i / SAMPLE_RATE_HZ;
                x[i] += amplitude * Math.cos(2 * Math.PI * h * turns + phase);
            }
        }
        return this;
    }

    /** One harmonic of the turn. */
    BearingRecords turn(int harmonic, double amplitudeMps2) {
        for (int i = 0; i < x.length; i++) {
            double turns = turnsHz * i / SAMPLE_RATE_HZ;
            x[i] += amplitudeMps2 * Math.cos(2 * Math.PI * harmonic * turns);
        }
        return this;
    }

    /** White noise that swells and fades with two orders. */
    BearingRecords swellingNoise(double rmsMps2, double depth, double orderA, double orderB) {
        for (int i = 0; i < x.length; i++) {
            double turns = turnsHz * i / SAMPLE_RATE_HZ;
            double swell =
                    1
                            + depth * Math.cos(2 * Math.PI * orderA * turns)
                            + depth * Math.cos(2 * Math.PI * orderB * turns);
            x[i] += rmsMps2 * swell * random.nextGaussian();
        }
        return this;
    }

    /**
     * Strikes at an order, with a jitter that adds up, weighted by the spot's place in the load.
     */
    BearingRecords strikes(double order, double spotOrder, double amplitudeMps2, double jitter) {
        double turns = random.nextDouble() / order;
        double spot = random.nextDouble();
        double end = x.length / SAMPLE_RATE_HZ * turnsHz;
        while (turns < end) {
            double place = spot + spotOrder * turns;
            double off = Math.abs(place - Math.rint(place));
            double load =
                    spotOrder == 0
                            ? 1
                            : off < LOAD_ZONE_TURNS
                                    ? Math.cos(0.5 * Math.PI * off / LOAD_ZONE_TURNS)
                                    : 0;
            ring(turns / turnsHz, amplitudeMps2 * load);
            turns += (1 + jitter * random.nextGaussian()) / order;
        }
        return this;
    }

    /** Single knocks at random times. */
    BearingRecords bursts(int count, double amplitudeMps2) {
        for (int i = 0; i < count; i++) {
            ring(random.nextDouble() * x.length / SAMPLE_RATE_HZ, amplitudeMps2);
        }
        return this;
    }

    private void ring(double atS, double amplitudeMps2) {
        int from = (int) Math.ceil(atS * SAMPLE_RATE_HZ);
        double decay = RING_DAMPING * 2 * Math.PI * RING_HZ;
        for (int i = from; i < x.length; i++) {
            double t = i / SAMPLE_RATE_HZ - atS;
            double envelope = amplitudeMps2 * Math.exp(-decay * t);
            if (envelope < 1e-4 * amplitudeMps2) {
                return;
            }
            x[i] += envelope * Math.sin(2 * Math.PI * RING_HZ * t);
        }
    }

    /** A record with one fault, balls slipping so that the order is off by a share. */
    static double[] faulty(long seed, Fault fault, Ring turning, double slip, double turnsHz) {
        BearingOrders o = BearingOrders.of(sixTwoOhThree(), turning);
        BearingRecords record = new BearingRecords(seed, 8, turnsHz).noise(1).shaftHarmonics(0.5);
        double jitter = 0.005;
        double off = 1 + slip;
        return switch (fault) {
            case BEARING_OUTER_RING ->
                    record.strikes(
                                    o.outerRaceOrder() * off,
                                    turning == Ring.OUTER ? 1 : 0,
                                    turning == Ring.OUTER ? 18 : 8,
                                    jitter)
                            .samples();
            case BEARING_INNER_RING ->
                    record.strikes(
                                    o.innerRaceOrder() * off,
                                    turning == Ring.INNER ? 1 : 0,
                                    turning == Ring.INNER ? 18 : 8,
                                    jitter)
                            .samples();
            case ROLLING_ELEMENT ->
                    record.strikes(2 * o.ballSpinOrder() * off, o.cageOrder(), 18, jitter)
                            .samples();
            case CAGE -> record.strikes(o.cageOrder() * off, 0, 40, jitter).samples();
            default -> record.samples();
        };
    }
}

package tickover.diagnose;

import java.util.Objects;
import java.util.function.DoubleUnaryOperator;
import tickover.drive.BearingOrders;
import tickover.drive.Ring;
import tickover.order.ShaftAngle;

/**
 * A bench record with the angle of the turning ring: from a given speed, from a tach, or from a
 * speed that was found in the record. Immutable; the samples are shared with the {@link
 * BenchRecord}.
 */
public final class BenchTake {
    private static final double SECONDS_PER_MINUTE = 60;

    /** Where the speed is from. */
    public enum Speed {
        /** Stated by the user and sharpened from the record where that shows it. */
        GIVEN,
        /** Pulses of a mark. */
        TACH,
        /** Found in the record alone. */
        FOUND
    }

    private final BenchRecord record;
    private final Speed source;
    private final double meanHz;
    private final boolean confirmed;
    private final DoubleUnaryOperator turnsAtS;

    private BenchTake(
            BenchRecord record,
            Speed source,
            double meanHz,
            boolean confirmed,
            DoubleUnaryOperator turnsAtS) {
        this.record = record;
        this.source = source;
        this.meanHz = meanHz;
        this.confirmed = confirmed;
        this.turnsAtS = turnsAtS;
    }

    /**
     * Takes a record at a steady speed that is roughly known.
     *
     * @param record the record
     * @param givenRpm speed, rpm, within 2.5 % of the truth; it is sharpened from the record
     * @return the take
     * @throws IllegalArgumentException if the sample rate does not suit the speed
     */
    public static BenchTake atSpeed(BenchRecord record, double givenRpm) {
        return steady(record, Speed.GIVEN, givenRpm, false);
    }

    /**
     * Takes a record at a steady speed of which nothing is said.
     *
     * @param record the record
     * @return the take
     * @throws IllegalArgumentException if the record does not show its speed; the message says why
     *     and what to give instead
     */
    public static BenchTake findingSpeed(BenchRecord record) {
        Objects.requireNonNull(record, "record");
        BenchSpeedFinder.Found found = BenchSpeedFinder.find(record);
        if (found.rpm().isEmpty()) {
            throw new IllegalArgumentException(
                    "the speed cannot be found: "
                            + found.why()
                            + "; give the speed of the turning ring in rpm, or a tach's pulses");
        }
        return steady(record, Speed.FOUND, found.rpm().getAsDouble(), true);
    }

    private static BenchTake steady(BenchRecord record, Speed source, double rpm, boolean isKnown) {
        Objects.requireNonNull(record, "record");
        BenchSpeed speed =
                BenchSpeed.near(
                        record.channelsMps2(),
                        record.sampleRateHz(),
                        rpm / SECONDS_PER_MINUTE,
                        BearingOrders.of(record.geometry(), record.turning()));
        double turnsHz = speed.turnsHz();
        return new BenchTake(
                record, source, turnsHz, speed.refined() || isKnown, timeS -> turnsHz * timeS);
    }

    /**
     * Takes a record with a tach. Samples before and after the known angle are left out.
     *
     * @param record the record
     * @param angle turns of the turning ring over time
     * @return the take
     */
    public static BenchTake withTach(BenchRecord record, ShaftAngle angle) {
        Objects.requireNonNull(record, "record");
        Objects.requireNonNull(angle, "angle");
        double fs = record.sampleRateHz();
        int from = (int) Math.max(0, Math.ceil(angle.startS() * fs));
        int to = (int) Math.min(record.length(), Math.floor(angle.endS() * fs) + 1);
        double fromS = from / fs;
        return new BenchTake(
                record.part(Math.min(from, to), to),
                Speed.TACH,
                (angle.endTurns() - angle.startTurns()) / (angle.endS() - angle.startS()),
                true,
                timeS -> angle.turnsAt(Math.min(angle.endS(), fromS + timeS)));
    }

    /** One of several pieces of one length. */
    BenchTake piece(int index, int pieces) {
        int length = record.length() / pieces;
        double fromS = index * length / record.sampleRateHz();
        return new BenchTake(
                record.part(index * length, (index + 1) * length),
                source,
                meanHz,
                confirmed,
                timeS -> turnsAtS.applyAsDouble(fromS + timeS));
    }

    BenchRecord record() {
        return record;
    }

    Speed source() {
        return source;
    }

    Ring turning() {
        return record.turning();
    }

    BearingOrders orders() {
        return BearingOrders.of(record.geometry(), record.turning());
    }

    double meanHz() {
        return meanHz;
    }

    /**
     * Returns the mean speed.
     *
     * @return rpm
     */
    public double meanRpm() {
        return SECONDS_PER_MINUTE * meanHz;
    }

    boolean confirmed() {
        return confirmed;
    }

    double turns() {
        return meanHz * record.length() / record.sampleRateHz();
    }

    DoubleUnaryOperator turnsAtS() {
        return turnsAtS;
    }
}

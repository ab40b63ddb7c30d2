package tickover.order;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tickover.dsp.Statistics;
import tickover.dsp.Window;

/**
 * Level and phase of chosen orders over a whole record; orders need not be whole numbers.
 *
 * <p>The record is cut into overlapping segments under a four-term window. In each segment all
 * chosen orders that can be told apart, the neighbouring multiples of one half (the engine's own
 * lines) and the mean are fitted together by weighted least squares, so that a line reads right
 * however many cycles it makes and whatever strong line stands beside it. The level is the root of
 * the mean square over segments, less the noise beside the line. A line that changes along the
 * record reads its rms over the record.
 *
 * <p>Segments are 32 turns long, more where a neighbour stands close, the whole record at most.
 * Orders closer than two turns' worth of the record cannot be told apart: each then reads the sum.
 */
public final class OrderLines {
    private OrderLines() {}

    /**
     * Levels of orders.
     *
     * @param record record over angle, at least 4 turns
     * @param orders per crank turn, at least two cycles within the record each, below the angular
     *     Nyquist order
     * @return one line per order, in the same sequence
     */
    public static List<OrderLine> of(AngularRecord record, double... orders) {
        if (!(record.lengthTurns() >= 4)) {
            throw new IllegalArgumentException(
                    "record of " + record.lengthTurns() + " turns, need at least 4");
        }
        for (double order : orders) {
            if (!(order * record.lengthTurns() >= 2 && order < record.samplesPerTurn() / 2.0)) {
                throw new IllegalArgumentException(
                        "order="
                                + order
                                + ", need at least two cycles in the record's "
                                + record.lengthTurns()
                                + " turns and an order below "
                                + record.samplesPerTurn() / 2.0);
            }
        }
        OrderLine[] lines = new OrderLine[orders.length];
        for (LinePlan.Group group : LinePlan.groups(orders, record.lengthTurns())) {
            measure(record, orders, group, lines);
        }
        return List.of(lines);
    }

    private static void measure(
            AngularRecord record, double[] orders, LinePlan.Group group, OrderLine[] lines) {
        int length =
                (int)
                        Math.min(
                                record.values().length,
                                Math.round(group.segmentTurns() * record.samplesPerTurn()));
        SegmentFit fit = new SegmentFit(record.samplesPerTurn(), length, group.fitted());
        int count = SegmentFit.segments(record.values().length, length);
        double[][] power = new double[group.wanted().length][count];
        double[][] sums = new double[2][group.wanted().length];
        double[] noise = noise(record, fit, orders, group, count);
        for (int s = 0; s < count; s++) {
            int from = SegmentFit.segmentStart(s, count, record.values().length, length);
            fit.fit(record, from);
            for (int w = 0; w < power.length; w++) {
                double re = fit.re(group.place(w));
                double im = fit.im(group.place(w));
                power[w][s] = (re * re + im * im) / 2;
                sums[0][w] += re;
                sums[1][w] += im;
            }
        }
        for (int w = 0; w < power.length; w++) {
            double phase = Math.toDegrees(Math.atan2(sums[1][w], sums[0][w]));
            lines[group.wanted()[w]] =
                    line(orders[group.wanted()[w]], power[w], noise[w], fit.overlapFactor(), phase);
        }
    }

    /**
     * Rms and its error from the mean squares of segments. With few segments the scatter says
     * little, so the error that the noise beside the line alone would make is its least value.
     */
    private static OrderLine line(
            double order, double[] power, double noise, double overlapFactor, double phaseDeg) {
        double mean = Statistics.mean(power);
        double independent = Math.max(1, power.length / overlapFactor);
        double square = Math.max(0, mean - noise);
        double scatter =
                power.length < 4
                        ? 0
                        : Math.sqrt(Statistics.variance(power) / Math.max(1, independent - 1));
        double byNoise = Math.sqrt((2 * square * noise + noise * noise) / independent);
        double errorOfSquare = Math.max(scatter, byNoise);
        double rms = Math.sqrt(square);
        // For a line that drowns in the noise the error of the square is all there is to tell.
        double error = errorOfSquare / (2 * Math.max(rms, Math.sqrt(errorOfSquare) / 2));
        return new OrderLine(order, rms, error, phaseDeg);
    }

    /** Mean square that noise alone adds to each wanted line: the median of places beside it. */
    private static double[] noise(
            AngularRecord record,
            SegmentFit fit,
            double[] orders,
            LinePlan.Group group,
            int count) {
        double binOrders = (double) record.samplesPerTurn() / fit.length();
        List<Double> places = new ArrayList<>();
        int[] from = new int[group.wanted().length + 1];
        for (int w = 0; w < group.wanted().length; w++) {
            from[w] = places.size();
            double order = orders[group.wanted()[w]];
            for (int side = -1; side <= 1; side += 2) {
                for (double away = 5; away <= 11; away += 1.5) {
                    double place = order + side * away * binOrders;
                    if (place > 2 * binOrders
                            && place < record.samplesPerTurn() / 2.0 - 2 * binOrders
                            && LinePlan.distance(place, group.fitted()) > 4.5 * binOrders) {
                        places.add(place);
                    }
                }
            }
        }
        from[group.wanted().length] = places.size();
        double[] at = places.stream().mapToDouble(Double::doubleValue).toArray();
        double[] power = new double[at.length];
        // A handful of segments is enough for the floor and keeps its cost below the fit's.
        int used = Math.min(count, 8);
        for (int s = 0; s < used; s++) {
            int segment = used == 1 ? 0 : (int) ((long) s * (count - 1) / (used - 1));
            int start =
                    SegmentFit.segmentStart(segment, count, record.values().length, fit.length());
            fit.addPower(record.values(), start, at, power);
        }
        double[] noise = new double[group.wanted().length];
        for (int w = 0; w < noise.length; w++) {
            if (from[w + 1] > from[w]) {
                double[] around = Arrays.copyOfRange(power, from[w], from[w + 1]);
                noise[w] = Statistics.median(around) / used;
                if (used < 4) {
                    // The median of a single power is ln 2 of its mean.
                    noise[w] /= Math.log(2);
                }
            }
        }
        return noise;
    }

    /**
     * One order followed along the record: level and phase of each segment.
     *
     * @param record record over angle
     * @param angle the angle it was resampled with
     * @param order per crank turn
     * @param segmentTurns length of a segment, crank turns, at least 4 cycles of the order
     * @return the slice, one point per quarter segment; empty if the record is shorter than one
     */
    public static OrderSlice slice(
            AngularRecord record, ShaftAngle angle, double order, double segmentTurns) {
        if (!(order > 0 && segmentTurns * order >= 4)) {
            throw new IllegalArgumentException(
                    "order="
                            + order
                            + ", segmentTurns="
                            + segmentTurns
                            + ", need segments of at least 4 cycles");
        }
        int length = (int) Math.round(segmentTurns * record.samplesPerTurn());
        int count = SegmentFit.segments(record.values().length, length);
        double[] fitted = LinePlan.withNeighbours(order, segmentTurns);
        SegmentFit fit = new SegmentFit(record.samplesPerTurn(), length, fitted);
        double[][] out = new double[4][count];
        for (int s = 0; s < count; s++) {
            int from = SegmentFit.segmentStart(s, count, record.values().length, length);
            fit.fit(record, from);
            out[0][s] = angle.timeAt(record.turnsAt(from + (length - 1) / 2.0));
            out[1][s] = 60 * angle.speedHzAt(out[0][s]);
            out[2][s] = Math.hypot(fit.re(0), fit.im(0)) / Math.sqrt(2);
            out[3][s] = Math.toDegrees(Math.atan2(fit.im(0), fit.re(0)));
        }
        return new OrderSlice(order, out[0], out[1], out[2], out[3]);
    }

    /** The window of every segment; its side lobes lie 92 dB down. */
    static final Window WINDOW = Window.BLACKMAN_HARRIS;
}

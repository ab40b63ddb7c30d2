package tickover.order;

import java.util.Objects;
import java.util.OptionalDouble;

/**
 * Crank angle from tach edges or speed readings as they come: each piece of it is final as soon as
 * it is given, and rests on nothing that comes later.
 *
 * <p>In: moments in samples of the probe, rising. Out: pieces of angle, each one parabola of time.
 * <br>
 * From edges, a knot is one passage of the same mark, so unequal marks do not matter. The piece
 * between the last two knots lies on the parabola through the last three: constant angular
 * acceleration. An edge too early for the speed so far is passed over, and one that comes late by
 * whole turns stands for those that were missed; any other break starts the angle anew. <br>
 * From readings, speed runs straight from one to the next. <br>
 * The same edges give the same pieces however they are cut into calls. Allocates nothing after
 * construction. Thread: one per instance.
 */
public final class LiveAngle {
    /** Slower is not running, and faster is no engine, crank turns per second. */
    private static final double SLOWEST_HZ = 2;

    private static final double FASTEST_HZ = 250;

    /** An edge this early for the speed so far is a second one of the same mark. */
    private static final double EARLIEST_RATIO = 0.5;

    /** No crank changes its speed by more than this part from one turn to the next. */
    private static final double LARGEST_CHANGE_RATIO = 0.25;

    /** With more missed in a row the speed is lost. */
    private static final int MOST_MISSED = 4;

    /** So many late edges one after another: the speed so far was wrong, not they. */
    private static final int LATE_IN_A_ROW = 3;

    /** Readings farther apart say nothing of what was between, s. */
    private static final double LONGEST_READING_S = 2.5;

    /** Variance of a third difference of four times, over that of one: 1 + 9 + 9 + 1. */
    private static final double THIRD_DIFFERENCE = 20;

    /** Weight of the newest third difference. */
    private static final double NEWEST_RATIO = 1.0 / 16;

    /** Control units tell of a speed this much too late, and differ by as much, s. */
    private static final double READING_LAG_S = 0.15;

    /** A line that moves by so many radians, rms, loses 1 dB: exp(-x²/2) is -1 dB. */
    private static final double ONE_DB_RAD = Math.sqrt(2 * Math.log(10) / 20);

    /** Takes pieces of angle. */
    public interface Sink {
        /**
         * Takes the next piece: {@code turns = startTurns + slope x + bend x²}, x samples after its
         * start.
         *
         * @param fresh whether it does not go on from the piece before
         * @param startSamples its start
         * @param endSamples its end
         * @param startTurns angle at its start, crank turns
         * @param slope turns per sample at its start
         * @param bend half the change of that per sample
         */
        void piece(
                boolean fresh,
                double startSamples,
                double endSamples,
                double startTurns,
                double slope,
                double bend);
    }

    /**
     * Where speed comes from.
     *
     * @param sampleRateHz samples per second, Hz
     * @param edgesPerTurn edges per crank turn, &gt; 0; also a fraction, where the mark is on
     *     another pulley
     * @param edgesPerMark after how many edges the same mark passes again, &gt;= 1
     */
    public record Spec(double sampleRateHz, double edgesPerTurn, int edgesPerMark) {
        public Spec {
            if (!(sampleRateHz > 0)) {
                throw new IllegalArgumentException(
                        "sampleRateHz=" + sampleRateHz + ", need > 0 Hz");
            }
            if (!(edgesPerTurn > 0 && edgesPerMark >= 1)) {
                throw new IllegalArgumentException(
                        "edgesPerTurn="
                                + edgesPerTurn
                                + ", edgesPerMark="
                                + edgesPerMark
                                + ", need > 0 and >= 1");
            }
        }
    }

    private final Spec spec;
    private final Sink sink;
    private final double turnsPerEdge;

    /** The last four knots, oldest first: moment in samples, angle in turns. */
    private final double[] at = new double[4];

    private final double[] turns = new double[4];
    private int knots;
    private boolean given;
    private double lastEdge;
    private double interval;
    private boolean anyEdge;
    private int sinceKnot;
    private int lateInARow;
    private long missed;
    private long doubled;
    private long breaks;
    private double spreadSquared;
    private int spreads;
    private double lastReading;
    private double lastHz;
    private boolean anyReading;
    private double readingSpreadRatio;
    private double endTurns;
    private double speedHz;
    private double endSamples;

    /**
     * Makes an operator that knows no speed yet.
     *
     * @param spec where speed comes from
     * @param sink takes pieces, in the thread that tells of edges and readings
     */
    public LiveAngle(Spec spec, Sink sink) {
        this.spec = Objects.requireNonNull(spec, "spec");
        this.sink = Objects.requireNonNull(sink, "sink");
        this.turnsPerEdge = 1 / spec.edgesPerTurn();
    }

    /** Forgets the speed: the next piece is a fresh one. */
    public void lose() {
        knots = 0;
        anyEdge = false;
        anyReading = false;
        interval = 0;
        sinceKnot = 0;
        lateInARow = 0;
        given = false;
        spreads = 0;
        spreadSquared = 0;
    }

    /**
     * Takes an edge.
     *
     * @param samples when, samples
     * @param missedBefore how many edges are known to be missing just before it
     */
    public void edge(double samples, long missedBefore) {
        if (!anyEdge || !(missedBefore >= 0 && missedBefore <= MOST_MISSED)) {
            begin(samples);
            return;
        }
        double since = samples - lastEdge;
        if (!(since > 0)) {
            return;
        }
        missed += missedBefore;
        int steps = 1 + (int) missedBefore;
        if (spec.edgesPerMark() == 1 && missedBefore == 0) {
            steps = steps(since);
            if (steps == 0) {
                doubled++;
                return;
            }
        }
        double each = since / steps;
        double hz = turnsPerEdge * spec.sampleRateHz() / each;
        if (steps < 0 || !(hz >= SLOWEST_HZ && hz <= FASTEST_HZ)) {
            breaks++;
            begin(samples);
            return;
        }
        interval = each;
        lastEdge = samples;
        sinceKnot += steps;
        if (sinceKnot % spec.edgesPerMark() == 0) {
            knot(samples, sinceKnot * turnsPerEdge);
            sinceKnot = 0;
        } else if (sinceKnot > MOST_MISSED * spec.edgesPerMark()) {
            begin(samples);
        }
    }

    /** How many edges' time has passed; 0 if it is the same mark again, negative if none fits. */
    private int steps(double since) {
        if (!(interval > 0)) {
            return 1;
        }
        double ratio = since / interval;
        if (ratio < EARLIEST_RATIO) {
            return 0;
        }
        if (ratio < 1 + 2 * LARGEST_CHANGE_RATIO) {
            lateInARow = 0;
            return 1;
        }
        int whole = (int) Math.rint(ratio);
        lateInARow++;
        boolean fits = Math.abs(ratio - whole) <= LARGEST_CHANGE_RATIO;
        if (!fits || whole > MOST_MISSED || lateInARow >= LATE_IN_A_ROW) {
            return -1;
        }
        missed += whole - 1;
        return whole;
    }

    private void begin(double samples) {
        double from = endTurns;
        lose();
        anyEdge = true;
        lastEdge = samples;
        push(samples, Math.ceil(from) + 1);
    }

    private void push(double samples, double angle) {
        System.arraycopy(at, 1, at, 0, at.length - 1);
        System.arraycopy(turns, 1, turns, 0, turns.length - 1);
        at[at.length - 1] = samples;
        turns[turns.length - 1] = angle;
        knots++;
    }

    private void knot(double samples, double by) {
        push(samples, turns[turns.length - 1] + by);
        if (knots >= 4) {
            spread();
        }
        if (knots < 3) {
            return;
        }
        double first = at[2] - at[1];
        double second = at[3] - at[2];
        double before = (turns[2] - turns[1]) / first;
        double after = (turns[3] - turns[2]) / second;
        double bend = (after - before) / (first + second);
        boolean rises = before - bend * first > 0 && after + bend * second > 0;
        bend = rises ? bend : 0;
        if (!given) {
            sink.piece(true, at[1], at[2], turns[1], before - bend * first, bend);
        }
        double slope = after - bend * second;
        sink.piece(false, at[2], at[3], turns[2], slope, bend);
        given = true;
        endTurns = turns[3];
        endSamples = at[3];
        speedHz = (slope + 2 * bend * second) * spec.sampleRateHz();
    }

    /** What the last knot strays from the parabola through the three before it. */
    private void spread() {
        double a = turns[3] - turns[2];
        boolean even =
                Math.abs(turns[2] - turns[1] - a) < 1e-9
                        && Math.abs(turns[1] - turns[0] - a) < 1e-9;
        if (!even) {
            return;
        }
        double third = at[3] - 3 * at[2] + 3 * at[1] - at[0];
        double square = third * third / THIRD_DIFFERENCE;
        spreads++;
        spreadSquared += Math.max(NEWEST_RATIO, 1.0 / spreads) * (square - spreadSquared);
    }

    /**
     * Takes a reading of speed.
     *
     * @param samples when the engine had it, samples: best when the answer's usual lag is off
     * @param rpm crank speed, rpm
     */
    public void reading(double samples, double rpm) {
        double hz = rpm / 60;
        double sinceS = (samples - lastReading) / spec.sampleRateHz();
        if (anyReading && !(sinceS > 0)) {
            return;
        }
        boolean runs = hz >= SLOWEST_HZ && hz <= FASTEST_HZ;
        if (anyReading && runs && sinceS <= LONGEST_READING_S) {
            double length = samples - lastReading;
            double slope = lastHz / spec.sampleRateHz();
            double bend = (hz - lastHz) / spec.sampleRateHz() / (2 * length);
            double start = given ? endTurns : Math.ceil(endTurns) + 1;
            sink.piece(!given, lastReading, samples, start, slope, bend);
            given = true;
            endTurns = start + (slope + bend * length) * length;
            double change = Math.abs(hz - lastHz) / (hz * sinceS) * READING_LAG_S;
            readingSpreadRatio += 0.25 * (Math.hypot(change, 0.25 / rpm) - readingSpreadRatio);
            endSamples = samples;
            speedHz = hz;
        } else {
            breaks += given ? 1 : 0;
            given = false;
        }
        anyReading = runs;
        lastReading = samples;
        lastHz = hz;
    }

    /**
     * Returns whether there is a speed.
     *
     * @return false before the first piece and after speed was lost
     */
    public boolean hasSpeed() {
        return given;
    }

    /**
     * Returns the latest speed, 0 before the first.
     *
     * @return crank turns per second, Hz
     */
    public double speedHz() {
        return speedHz;
    }

    /**
     * Returns up to when the angle is known.
     *
     * @return samples
     */
    public double endSamples() {
        return endSamples;
    }

    /**
     * Returns how far the angle may be off, one standard error. From edges it rests on how far each
     * strays from the parabola through the three before it, so unrest of the engine counts as
     * jitter: never too small. From readings it is what a frame of turns gathers.
     *
     * @param frameTurns over how many turns lines are looked at
     * @return crank turns; empty until there are enough edges or readings
     */
    public OptionalDouble errorTurns(double frameTurns) {
        if (!given) {
            return OptionalDouble.empty();
        }
        if (anyReading) {
            // A constant error of speed moves a line; what blurs it is its change within a frame.
            return OptionalDouble.of(Math.max(1e-5, readingSpreadRatio) * frameTurns / 4);
        }
        if (spreads < 2) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(Math.sqrt(spreadSquared) * speedHz / spec.sampleRateHz());
    }

    /**
     * Returns up to which order lines keep their height within 1 dB, from {@link #errorTurns}.
     *
     * @param frameTurns over how many turns lines are looked at
     * @return orders; empty where the error is not known
     */
    public OptionalDouble sharpOrders(double frameTurns) {
        OptionalDouble error = errorTurns(frameTurns);
        return error.isEmpty()
                ? error
                : OptionalDouble.of(ONE_DB_RAD / (2 * Math.PI * (error.getAsDouble() + 1e-9)));
    }

    /**
     * Returns how many edges were missed, told or found.
     *
     * @return since construction
     */
    public long missed() {
        return missed;
    }

    /**
     * Returns how many edges were too many.
     *
     * @return since construction
     */
    public long doubled() {
        return doubled;
    }

    /**
     * Returns how often the angle broke off.
     *
     * @return since construction
     */
    public long breaks() {
        return breaks;
    }
}

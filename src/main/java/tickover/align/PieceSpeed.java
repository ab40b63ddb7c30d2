package tickover.align;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * What is known of engine speed in one piece, out of all that was recorded meanwhile.
 *
 * @param source pulses, readings or nothing
 * @param errorS how far they may be off by the clocks alone, s
 * @param missedEdges edges that the board reports as missed
 * @param edgeGaps where
 */
record PieceSpeed(
        SpeedSource source, double errorS, long missedEdges, List<CapturePiece.Stretch> edgeGaps) {
    /** So far beyond the piece's ends edges and readings are kept: they hold its ends, s. */
    private static final double BEYOND_S = 2;

    /** Edges farther apart say nothing of what is between: no engine turns as slowly, s. */
    private static final double FARTHEST_S = 1;

    /** Edges that cover so much of the piece are taken whatever else there is. */
    private static final double WELL_COVERED_RATIO = 0.9;

    /** Two boards under one mark count the same; an open input counts whatever it picks up. */
    private static final double SAME_RATE_RATIO = 0.05;

    /** Below, readings tell more. */
    private static final double LEAST_COVERED_RATIO = 0.5;

    /** The edges of one board. */
    static final class Edges {
        private final double lengthS;
        private final List<CapturePiece.Stretch> gaps = new ArrayList<>();
        private double[] timesS = new double[64];
        private int count;
        private double coveredS;
        private long intervals;
        private double intervalsS;
        private double errorS;
        private long missed;

        Edges(double lengthS) {
            this.lengthS = lengthS;
        }

        void add(EdgeRun run, double[] at, double mayBeOffS) {
            boolean within = at.length > 0 && at[0] >= 0 && at[0] <= lengthS;
            if (within && run.missedBefore() > 0 && count > 0) {
                missed += run.missedBefore();
                gaps.add(new CapturePiece.Stretch(Math.max(0, timesS[count - 1]), at[0]));
            }
            for (double t : at) {
                if (t >= -BEYOND_S
                        && t <= lengthS + BEYOND_S
                        && (count == 0 || t >= timesS[count - 1])) {
                    add(t);
                    errorS = Math.max(errorS, mayBeOffS);
                }
            }
        }

        private void add(double t) {
            if (count == timesS.length) {
                timesS = Arrays.copyOf(timesS, 2 * count);
            }
            if (count > 0 && t - timesS[count - 1] <= FARTHEST_S) {
                intervals++;
                intervalsS += t - timesS[count - 1];
                coveredS += Math.max(0, Math.min(t, lengthS) - Math.max(timesS[count - 1], 0));
            }
            timesS[count++] = t;
        }

        private double edgesPerS() {
            return intervals / intervalsS;
        }

        private boolean agreesWith(Edges other) {
            return Math.abs(edgesPerS() - other.edgesPerS()) <= SAME_RATE_RATIO * other.edgesPerS();
        }

        private boolean covers(double ratio) {
            return count > 1 && coveredS >= ratio * lengthS;
        }

        private PieceSpeed speed(int pulsesPerTurn, double turnsPerCrankTurn) {
            return new PieceSpeed(
                    new TachPulses(Arrays.copyOf(timesS, count), pulsesPerTurn, turnsPerCrankTurn),
                    errorS,
                    missed,
                    gaps);
        }
    }

    /** The readings of one adapter. */
    static final class Readings {
        private final double lengthS;
        private final List<double[]> rows = new ArrayList<>();
        private double errorS;

        Readings(double lengthS) {
            this.lengthS = lengthS;
        }

        void add(SpeedReading reading, double timeS, double mayBeOffS) {
            if (timeS < -BEYOND_S || timeS > lengthS + BEYOND_S) {
                return;
            }
            // The clock's line may put two readings of one answer the wrong way round.
            double after = rows.isEmpty() ? timeS : Math.max(timeS, rows.get(rows.size() - 1)[0]);
            rows.add(new double[] {after, reading.speedRpm()});
            errorS = Math.max(errorS, mayBeOffS);
        }

        private PieceSpeed speed() {
            return new PieceSpeed(
                    new SpeedReadings(
                            rows.stream().mapToDouble(r -> r[0]).toArray(),
                            rows.stream().mapToDouble(r -> r[1]).toArray(),
                            true),
                    errorS,
                    0,
                    List.of());
        }
    }

    /**
     * Chooses the best speed. Of boards that see every turn the first is taken that the last, which
     * somebody has named, agrees with.
     *
     * @param boards edges, the probe's own board first
     * @param adapters readings
     */
    static PieceSpeed choose(
            List<Edges> boards,
            List<Readings> adapters,
            int pulsesPerTurn,
            double turnsPerCrankTurn) {
        List<Edges> whole = boards.stream().filter(b -> b.covers(WELL_COVERED_RATIO)).toList();
        for (Edges board : whole) {
            if (board.agreesWith(whole.get(whole.size() - 1))) {
                return board.speed(pulsesPerTurn, turnsPerCrankTurn);
            }
        }
        Edges most = null;
        for (Edges board : boards) {
            if (board.count > 0 && (most == null || board.coveredS > most.coveredS)) {
                most = board;
            }
        }
        if (most != null && most.covers(LEAST_COVERED_RATIO)) {
            return most.speed(pulsesPerTurn, turnsPerCrankTurn);
        }
        Readings longest = null;
        for (Readings adapter : adapters) {
            if (!adapter.rows.isEmpty()
                    && (longest == null || adapter.rows.size() > longest.rows.size())) {
                longest = adapter;
            }
        }
        if (longest != null) {
            return longest.speed();
        }
        return most == null
                ? new PieceSpeed(new NoSpeed(), 0, 0, List.of())
                : most.speed(pulsesPerTurn, turnsPerCrankTurn);
    }
}

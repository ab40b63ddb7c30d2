package tickover.diagnose;

import java.util.List;
import java.util.Objects;
import tickover.drive.Condition;
import tickover.drive.PartWords;

/**
 * Levels of one part that may be held against each other, one per visit, oldest first.
 *
 * @param place what all of them have in common
 * @param points the visits, at least one
 */
public record LevelSeries(Place place, List<Point> points) {
    private static final double DB_PER_NEPER = 20 / Math.log(10);

    public LevelSeries {
        Objects.requireNonNull(place, "place");
        points = List.copyOf(points);
        if (!(points.size() >= 1)) {
            throw new IllegalArgumentException("points=0, need at least 1");
        }
    }

    /**
     * What has to agree before levels may be strung together.
     *
     * @param part whose level
     * @param point where the probe stood
     * @param axis along which it listened, may be empty
     * @param mount how it was held
     * @param regime what the engine speed did
     * @param condition what the drive had to carry
     * @param speedRpm mean speed of the first of them; all are within {@link
     *     LikeWithLike#SPEED_BAND_RATIO} of it, rpm
     */
    public record Place(
            String part,
            String point,
            String axis,
            Mount mount,
            Regime regime,
            Condition condition,
            double speedRpm) {
        public Place {
            Objects.requireNonNull(part, "part");
            Objects.requireNonNull(point, "point");
            Objects.requireNonNull(axis, "axis");
            Objects.requireNonNull(mount, "mount");
            Objects.requireNonNull(regime, "regime");
            Objects.requireNonNull(condition, "condition");
        }

        /**
         * Returns the place in words.
         *
         * @return such as {@code at the idler, radial, hand, idle, no load, near 780 rpm}
         */
        public String words() {
            return "at "
                    + PartWords.the(point)
                    + (axis.isEmpty() ? "" : ", " + axis)
                    + ", "
                    + mount.word()
                    + ", "
                    + regime.word()
                    + ", "
                    + condition
                    + ", near "
                    + Math.round(speedRpm)
                    + " rpm";
        }

        /**
         * Returns whether two vehicles' levels at these places may be held against each other.
         *
         * @param other a place on another vehicle of the same drive
         * @return true if all but the speed is equal and the speeds are in one band
         */
        public boolean like(Place other) {
            return part.equals(other.part)
                    && point.equals(other.point)
                    && axis.equals(other.axis)
                    && mount == other.mount
                    && regime == other.regime
                    && condition.equals(other.condition)
                    && LikeWithLike.oneBand(speedRpm, other.speedRpm);
        }
    }

    /**
     * The mean over the touches of one visit.
     *
     * @param visit which visit
     * @param levelDb mean of the touches' levels, dB re 1 m/s²
     * @param standardErrorDb its standard error: the larger of what the captures' own errors and
     *     the touches' scatter say, dB
     * @param belowError whether a level was below its own error, so that {@code levelDb} is only a
     *     bound from above
     * @param touches number of captures averaged, &gt;= 1
     * @param meanSpeedRpm their mean speed, rpm
     */
    public record Point(
            VisitMoment visit,
            double levelDb,
            double standardErrorDb,
            boolean belowError,
            int touches,
            double meanSpeedRpm) {
        public Point {
            Objects.requireNonNull(visit, "visit");
            if (!(Double.isFinite(levelDb) && standardErrorDb >= 0 && touches >= 1)) {
                throw new IllegalArgumentException(
                        "levelDb="
                                + levelDb
                                + ", standardErrorDb="
                                + standardErrorDb
                                + ", touches="
                                + touches);
            }
        }

        /**
         * Returns the level as an acceleration.
         *
         * @return rms, m/s²
         */
        public double levelRmsMps2() {
            return Math.pow(10, levelDb / 20);
        }

        /**
         * Returns the standard error as an acceleration.
         *
         * @return m/s²
         */
        public double standardErrorMps2() {
            return levelRmsMps2() * standardErrorDb / DB_PER_NEPER;
        }

        /** The mean of touches of one visit, none of which has a level of nothing. */
        static Point of(List<MeasuredLevel> touches) {
            int n = touches.size();
            double mean = 0;
            double within = 0;
            double speed = 0;
            boolean below = false;
            for (MeasuredLevel t : touches) {
                double error = DB_PER_NEPER * t.standardErrorMps2() / t.knownRmsMps2();
                mean += db(t) / n;
                within += error * error / n / n;
                speed += t.meanSpeedRpm() / n;
                below |= t.levelRmsMps2() < t.standardErrorMps2();
            }
            double between = 0;
            for (MeasuredLevel t : touches) {
                between += n > 1 ? (db(t) - mean) * (db(t) - mean) / (n - 1) / n : 0;
            }
            return new Point(
                    touches.get(0).visit(),
                    mean,
                    Math.sqrt(Math.max(within, between)),
                    below,
                    n,
                    speed);
        }

        private static double db(MeasuredLevel level) {
            return DB_PER_NEPER * Math.log(level.knownRmsMps2());
        }
    }

    /**
     * Returns the newest point.
     *
     * @return the last one
     */
    public Point newest() {
        return points.get(points.size() - 1);
    }
}

package tickover.order;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.TreeMap;
import tickover.dsp.Window;

/** Order spectra in a row: over turns, over time, or over speed. */
public final class Waterfall {
    /** What the rows are laid along. */
    public enum Axis {
        /** One row every so many crank turns. */
        TURNS,
        /** One row every so many seconds. */
        TIME,
        /** One row per band of so many rpm: the mean power of all frames within it. */
        SPEED
    }

    /**
     * How to lay rows.
     *
     * @param turnsPerFrame length of each frame, crank turns, &gt;= 1
     * @param axis what the rows are laid along
     * @param step distance of rows: crank turns, s or rpm as the axis says, &gt; 0
     * @param window taper
     */
    public record Spec(int turnsPerFrame, Axis axis, double step, Window window) {
        public Spec {
            if (!(turnsPerFrame >= 1)) {
                throw new IllegalArgumentException(
                        "turnsPerFrame=" + turnsPerFrame + ", need >= 1");
            }
            if (!(step > 0 && Double.isFinite(step))) {
                throw new IllegalArgumentException("step=" + step + ", need > 0");
            }
            Objects.requireNonNull(axis, "axis");
            Objects.requireNonNull(window, "window");
        }
    }

    /** One row. */
    public static final class Row {
        private final double timeS;
        private final double rpm;
        private final int frames;
        private final double[] rms;

        private Row(double timeS, double rpm, int frames, double[] rms) {
            this.timeS = timeS;
            this.rpm = rpm;
            this.frames = frames;
            this.rms = rms;
        }

        /**
         * Returns the time at mid-frame, by angle; for rows over speed the mean over its frames.
         *
         * @return s
         */
        public double timeS() {
            return timeS;
        }

        /**
         * Returns the crank speed: turns of the frame over its time, mean over its frames.
         *
         * @return rpm
         */
        public double rpm() {
            return rpm;
        }

        /**
         * Returns how many frames were averaged.
         *
         * @return frames, 1 except over speed
         */
        public int frames() {
            return frames;
        }

        /**
         * Returns the rms of each order bin as {@link OrderSpectrum.Scaling#LINE_RMS} defines it,
         * shared and read-only.
         *
         * @return m/s²
         */
        public double[] rms() {
            return rms;
        }
    }

    private final int turnsPerFrame;
    private final double enbwBins;
    private final List<Row> rows;

    private Waterfall(int turnsPerFrame, double enbwBins, List<Row> rows) {
        this.turnsPerFrame = turnsPerFrame;
        this.enbwBins = enbwBins;
        this.rows = List.copyOf(rows);
    }

    /**
     * Lays the rows of a record; none if it is shorter than a frame.
     *
     * @param record record over angle
     * @param angle the angle it was resampled with
     * @param spec how to lay rows
     * @return the waterfall
     */
    public static Waterfall of(AngularRecord record, ShaftAngle angle, Spec spec) {
        Builder builder = new Builder(record, angle, spec);
        return new Waterfall(
                spec.turnsPerFrame(),
                builder.frames.enbwBins(),
                switch (spec.axis()) {
                    case TURNS -> builder.overTurns();
                    case TIME -> builder.overTime();
                    case SPEED -> builder.overSpeed();
                });
    }

    /**
     * Returns the rows along the axis.
     *
     * @return rows, perhaps none
     */
    public List<Row> rows() {
        return rows;
    }

    /**
     * Returns the values of a row, from order 0 to the angular Nyquist order.
     *
     * @param row one of {@link #rows}
     * @param scaling what they shall mean
     * @return a new array
     */
    public double[] values(Row row, OrderSpectrum.Scaling scaling) {
        return scaling.of(row.rms(), turnsPerFrame, enbwBins);
    }

    /**
     * Returns the order of a bin.
     *
     * @param bin 0 for order 0
     * @return per crank turn
     */
    public double orderOf(int bin) {
        return (double) bin / turnsPerFrame;
    }

    private static final class Builder {
        private final AngularRecord record;
        private final ShaftAngle angle;
        private final Spec spec;
        private final OrderSpectrum.AngularFrames frames;
        private final int room;

        Builder(AngularRecord record, ShaftAngle angle, Spec spec) {
            this.record = record;
            this.angle = angle;
            this.spec = spec;
            this.frames =
                    new OrderSpectrum.AngularFrames(
                            record.samplesPerTurn(), spec.turnsPerFrame(), spec.window());
            this.room = record.values().length - frames.size();
        }

        List<Row> overTurns() {
            List<Row> rows = new ArrayList<>();
            for (int i = 0; ; i++) {
                double from = Math.rint(i * spec.step() * record.samplesPerTurn());
                if (!(from <= room)) {
                    return rows;
                }
                rows.add(row((int) from));
            }
        }

        List<Row> overTime() {
            List<Row> rows = new ArrayList<>();
            if (room < 0) {
                return rows;
            }
            double half = spec.turnsPerFrame() / 2.0;
            double firstS = angle.timeAt(record.startTurns() + half);
            double lastS = angle.timeAt(record.turnsAt(room) + half);
            for (int i = 0; firstS + i * spec.step() <= lastS; i++) {
                double from = angle.turnsAt(firstS + i * spec.step()) - half - record.startTurns();
                long at = Math.round(from * record.samplesPerTurn());
                rows.add(row((int) Math.max(0, Math.min(room, at))));
            }
            return rows;
        }

        List<Row> overSpeed() {
            List<Row> singles = new ArrayList<>();
            for (int from = 0; from <= room; from += Math.max(1, frames.size() / 2)) {
                singles.add(row(from));
            }
            TreeMap<Long, List<Row>> bands = new TreeMap<>();
            for (Row single : singles) {
                long band = (long) Math.floor(single.rpm / spec.step());
                bands.computeIfAbsent(band, b -> new ArrayList<>()).add(single);
            }
            List<Row> rows = new ArrayList<>();
            for (List<Row> band : bands.values()) {
                rows.add(mean(band));
            }
            return rows;
        }

        private Row row(int from) {
            double startTurns = record.turnsAt(from);
            double startS = angle.timeAt(startTurns);
            double endS =
                    angle.timeAt(Math.min(angle.endTurns(), startTurns + spec.turnsPerFrame()));
            double midS = angle.timeAt(startTurns + spec.turnsPerFrame() / 2.0);
            double[] rms = new double[frames.bins()];
            frames.rms(record.values(), from, rms);
            double rpm = 60.0 * spec.turnsPerFrame() / (endS - startS);
            return new Row(midS, rpm, 1, rms);
        }

        private static Row mean(List<Row> band) {
            double[] power = new double[band.get(0).rms.length];
            double timeS = 0;
            double rpm = 0;
            for (Row row : band) {
                timeS += row.timeS / band.size();
                rpm += row.rpm / band.size();
                for (int k = 0; k < power.length; k++) {
                    power[k] += row.rms[k] * row.rms[k] / band.size();
                }
            }
            double[] rms = Arrays.stream(power).map(Math::sqrt).toArray();
            return new Row(timeS, rpm, band.size(), rms);
        }
    }
}

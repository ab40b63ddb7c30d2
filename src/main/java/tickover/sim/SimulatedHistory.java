package tickover.sim;

import java.util.Objects;
import java.util.Random;

/**
 * Levels of every part of one vehicle over many visits, without the recordings: what a history of
 * years looks like, with a known truth. Levels are in dB re 1 m/s².
 *
 * <p>Each part has a level of its own, and each place hears it differently. At every visit the
 * probe is put down anew, which moves all parts at that place together and each a little for
 * itself, and the season moves all. The scatter that this makes is a choice (hand-held
 * repeatability has no good source), the same for every method that is tried on it.
 */
public final class SimulatedHistory {
    private final Spec spec;
    private final double[][][] levelsDb;
    private final int[] days;

    /** What happens to one part. */
    public enum Course {
        /** Nothing. */
        SOUND,
        /** From one visit on the level rises by so much at each visit. */
        GROWTH,
        /** From one visit on the level is so much higher. */
        STEP,
        /** The level falls by so much at a visit, as after a repair. */
        REPAIR,
        /** From one visit on the probe is held otherwise, and every level is so much higher. */
        REMOUNT
    }

    /**
     * What to make.
     *
     * @param visits number of visits, &gt;= 1
     * @param parts number of parts, &gt;= 1; something happens to the first
     * @param places at which each part is measured at each visit, &gt;= 1
     * @param touchDb standard deviation of putting the probe down, common to all parts of a place
     * @param partDb standard deviation of each level for itself
     * @param seasonDb half the swing of the levels over a year
     * @param course what happens
     * @param fromVisit at which visit it begins, from 0
     * @param sizeDb how much, dB; per visit for {@link Course#GROWTH}
     */
    public record Spec(
            int visits,
            int parts,
            int places,
            double touchDb,
            double partDb,
            double seasonDb,
            Course course,
            int fromVisit,
            double sizeDb) {
        public Spec {
            Objects.requireNonNull(course, "course");
            if (!(visits >= 1 && parts >= 1 && places >= 1 && fromVisit >= 0)) {
                throw new IllegalArgumentException(
                        "visits=" + visits + ", parts=" + parts + ", places=" + places);
            }
            if (!(touchDb >= 0 && partDb >= 0 && seasonDb >= 0 && Double.isFinite(sizeDb))) {
                throw new IllegalArgumentException(
                        "touchDb=" + touchDb + ", partDb=" + partDb + ", need >= 0 dB");
            }
        }
    }

    private SimulatedHistory(Spec spec, double[][][] levelsDb, int[] days) {
        this.spec = spec;
        this.levelsDb = levelsDb;
        this.days = days;
    }

    /**
     * Makes a history.
     *
     * @param spec what to make
     * @param seed the same seed always gives the same history
     * @return the history
     */
    public static SimulatedHistory of(Spec spec, long seed) {
        Random random = new Random(seed);
        double[][] own = new double[spec.parts()][spec.places()];
        for (double[] part : own) {
            double level = -20 + 6 * random.nextGaussian();
            for (int k = 0; k < part.length; k++) {
                part[k] = level + (k == 0 ? 0 : -4 + 3 * random.nextGaussian());
            }
        }
        double phase = random.nextDouble() * 365;
        int[] days = new int[spec.visits()];
        double[][][] levels = new double[spec.visits()][spec.parts()][spec.places()];
        for (int v = 0; v < spec.visits(); v++) {
            days[v] = v == 0 ? 0 : days[v - 1] + 60 + random.nextInt(61);
            double season = spec.seasonDb() * Math.sin(2 * Math.PI * (days[v] + phase) / 365.25);
            for (int k = 0; k < spec.places(); k++) {
                double touch = spec.touchDb() * random.nextGaussian();
                for (int p = 0; p < spec.parts(); p++) {
                    levels[v][p][k] =
                            own[p][k]
                                    + season
                                    + touch
                                    + spec.partDb() * random.nextGaussian()
                                    + changeDb(spec, v, p);
                }
            }
        }
        return new SimulatedHistory(spec, levels, days);
    }

    private static double changeDb(Spec spec, int visit, int part) {
        int since = visit - spec.fromVisit() + 1;
        if (since <= 0 || (part > 0 && spec.course() != Course.REMOUNT)) {
            return 0;
        }
        return switch (spec.course()) {
            case SOUND -> 0;
            case GROWTH -> spec.sizeDb() * since;
            case STEP, REMOUNT -> spec.sizeDb();
            case REPAIR -> -spec.sizeDb();
        };
    }

    /**
     * Returns what was made.
     *
     * @return the spec
     */
    public Spec spec() {
        return spec;
    }

    /**
     * Returns when a visit was.
     *
     * @param visit from 0
     * @return days since the first visit, 60 to 120 from one to the next
     */
    public int day(int visit) {
        return days[visit];
    }

    /**
     * Returns a level.
     *
     * @param visit from 0
     * @param part from 0
     * @param place from 0
     * @return dB re 1 m/s²
     */
    public double levelDb(int visit, int part, int place) {
        return levelsDb[visit][part][place];
    }
}

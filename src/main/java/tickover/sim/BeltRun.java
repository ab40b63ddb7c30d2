package tickover.sim;

import java.util.List;
import java.util.Optional;
import tickover.drive.Face;

/**
 * The way of a belt around its pulleys, by tangents: where along the belt each pulley begins, and
 * how long the belt lies on it. Grooved pulleys turn left as drawn, flat ones right.
 */
final class BeltRun {
    private static final double LEAST_WRAP_RAD = Math.toRadians(22);
    private static final double MOST_WRAP_RAD = Math.toRadians(250);
    private static final double CLEARANCE_MM = 6;

    private final double[] entryMm;
    private final double[] contactMm;
    private final double lengthMm;

    private BeltRun(double[] entryMm, double[] contactMm, double lengthMm) {
        this.entryMm = entryMm;
        this.contactMm = contactMm;
        this.lengthMm = lengthMm;
    }

    /**
     * Lays the belt.
     *
     * @param path pulleys in order of contact, the crank first, &gt;= 2
     * @return the run, or empty if the pulleys overlap, a span cuts one, or a wrap is impossible
     */
    static Optional<BeltRun> of(List<TruePulley> path) {
        int n = path.size();
        double[] spanRad = new double[n];
        double[] spanMm = new double[n];
        for (int i = 0; i < n; i++) {
            TruePulley a = path.get(i);
            TruePulley b = path.get((i + 1) % n);
            double dx = b.position().xMm() - a.position().xMm();
            double dy = b.position().yMm() - a.position().yMm();
            double distance = Math.hypot(dx, dy);
            if (distance < a.radiusMm() + b.radiusMm() + CLEARANCE_MM) {
                return Optional.empty();
            }
            double difference = signedRadius(a) - signedRadius(b);
            spanRad[i] = Math.atan2(dy, dx) + Math.asin(difference / distance);
            spanMm[i] = Math.sqrt(distance * distance - difference * difference);
        }
        double[] entryMm = new double[n];
        double[] contactMm = new double[n];
        double at = 0;
        for (int i = 0; i < n; i++) {
            double turn = spanRad[i] - spanRad[(i + n - 1) % n];
            double wrap = positive(path.get(i).face() == Face.GROOVED ? turn : -turn);
            if (wrap < LEAST_WRAP_RAD || wrap > MOST_WRAP_RAD) {
                return Optional.empty();
            }
            entryMm[i] = at;
            contactMm[i] = wrap * path.get(i).radiusMm();
            at += contactMm[i] + spanMm[i];
        }
        return cuts(path, spanRad, spanMm)
                ? Optional.empty()
                : Optional.of(new BeltRun(entryMm, contactMm, at));
    }

    private static double signedRadius(TruePulley p) {
        return p.face() == Face.GROOVED ? p.radiusMm() : -p.radiusMm();
    }

    private static double positive(double rad) {
        double turn = 2 * Math.PI;
        return rad - turn * Math.floor(rad / turn);
    }

    /** Whether a span runs into a pulley that it does not belong to. */
    private static boolean cuts(List<TruePulley> path, double[] spanRad, double[] spanMm) {
        int n = path.size();
        for (int i = 0; i < n; i++) {
            double ux = Math.cos(spanRad[i]);
            double uy = Math.sin(spanRad[i]);
            TruePulley a = path.get(i);
            double startX = a.position().xMm() + signedRadius(a) * uy;
            double startY = a.position().yMm() - signedRadius(a) * ux;
            for (int k = 0; k < n; k++) {
                if (k == i || k == (i + 1) % n) {
                    continue;
                }
                TruePulley p = path.get(k);
                double dx = p.position().xMm() - startX;
                double dy = p.position().yMm() - startY;
                double along = Math.max(0, Math.min(spanMm[i], dx * ux + dy * uy));
                double gap = Math.hypot(dx - along * ux, dy - along * uy);
                if (gap < p.radiusMm() + CLEARANCE_MM) {
                    return true;
                }
            }
        }
        return false;
    }

    double lengthMm() {
        return lengthMm;
    }

    /** Where along the belt the pulley at a place in the path begins, in belt turns. */
    double entryTurns(int index) {
        return entryMm[index] / lengthMm;
    }

    /** How much of the belt lies on it, in belt turns. */
    double wrapTurns(int index) {
        return contactMm[index] / lengthMm;
    }
}

package tickover.drive;

import java.util.List;

/**
 * A belt by brute force, without tangents: a closed polyline that pulls itself short and is pushed
 * out of every pulley. Minimising the sum of squared steps makes it short and evenly divided.
 */
final class TautBelt {
    private static final int POINTS = 1600;
    private static final int SWEEPS = 6000;

    /** Over-relaxation; near 2 for many points, less to settle on the pulleys. */
    private static final double RELAXATION = 1.9;

    private TautBelt() {}

    /** Length of the tight belt that starts as the closed polygon through the waypoints. */
    static double lengthMm(double[][] waypointsMm, List<Pulley> pulleys) {
        double[][] belt = divide(waypointsMm);
        for (int sweep = 0; sweep < SWEEPS; sweep++) {
            double relaxation = sweep < SWEEPS / 2 ? RELAXATION : 1;
            for (int i = 0; i < POINTS; i++) {
                double[] before = belt[(i + POINTS - 1) % POINTS];
                double[] after = belt[(i + 1) % POINTS];
                for (int axis = 0; axis < 2; axis++) {
                    double middle = (before[axis] + after[axis]) / 2;
                    belt[i][axis] += relaxation * (middle - belt[i][axis]);
                }
                pushOut(belt[i], pulleys);
            }
        }
        double lengthMm = 0;
        for (int i = 0; i < POINTS; i++) {
            double[] next = belt[(i + 1) % POINTS];
            lengthMm += Math.hypot(next[0] - belt[i][0], next[1] - belt[i][1]);
        }
        return lengthMm;
    }

    private static double[][] divide(double[][] waypointsMm) {
        double[][] belt = new double[POINTS][2];
        for (int i = 0; i < POINTS; i++) {
            double at = (double) i * waypointsMm.length / POINTS;
            int leg = (int) at;
            double[] from = waypointsMm[leg];
            double[] to = waypointsMm[(leg + 1) % waypointsMm.length];
            for (int axis = 0; axis < 2; axis++) {
                belt[i][axis] = from[axis] + (at - leg) * (to[axis] - from[axis]);
            }
        }
        return belt;
    }

    private static void pushOut(double[] point, List<Pulley> pulleys) {
        for (Pulley p : pulleys) {
            Position c = p.position().orElseThrow();
            double dx = point[0] - c.xMm();
            double dy = point[1] - c.yMm();
            double distanceMm = Math.hypot(dx, dy);
            double radiusMm = p.diameterMm() / 2;
            if (distanceMm < radiusMm) {
                point[0] = c.xMm() + dx * radiusMm / distanceMm;
                point[1] = c.yMm() + dy * radiusMm / distanceMm;
            }
        }
    }
}

package tickover.sim;

import java.util.Arrays;

/**
 * Engine speed as an adapter on the diagnostic socket reports it: averaged in the control unit,
 * rounded to a quarter rpm, a few times a second, late.
 *
 * @param latencyS shortest time from the end of the averaging to arrival, s
 * @param latencyJitterS largest further delay of a single reading, s
 * @param readingsHz readings per second, Hz
 * @param averagingS span over which the control unit averages, s
 */
record ObdAdapter(double latencyS, double latencyJitterS, double readingsHz, double averagingS) {
    private static final double STEP_RPM = 0.25;

    ObdAdapter {
        if (!(latencyS >= 0 && latencyJitterS >= 0 && averagingS > 0)) {
            throw new IllegalArgumentException(
                    "latencyS="
                            + latencyS
                            + ", latencyJitterS="
                            + latencyJitterS
                            + ", averagingS="
                            + averagingS
                            + ", need >= 0 s and some averaging");
        }
        if (!(readingsHz > 0)) {
            throw new IllegalArgumentException("readingsHz=" + readingsHz + ", need > 0 Hz");
        }
    }

    /**
     * Records the readings of a capture, starting a little before its first sample when the adapter
     * was already running.
     *
     * @param crank the crank
     * @param durationS length, s
     * @param draw draws of this capture
     * @return the record, arrival times
     */
    SpeedRecord.Readings record(CrankMotion crank, double durationS, Draw draw) {
        double[] times = new double[16];
        double[] speeds = new double[16];
        int n = 0;
        double arrivalS = draw.between(0, 1 / readingsHz);
        while (arrivalS < durationS) {
            double delayS = latencyS + latencyJitterS * draw.between(0, 1);
            double measuredS = arrivalS - delayS;
            double turned =
                    crank.meanTurnsAt(measuredS) - crank.meanTurnsAt(measuredS - averagingS);
            if (n == times.length) {
                times = Arrays.copyOf(times, 2 * n);
                speeds = Arrays.copyOf(speeds, 2 * n);
            }
            times[n] = Math.rint(arrivalS * 1000) / 1000;
            speeds[n++] = Math.rint(60 * turned / averagingS / STEP_RPM) * STEP_RPM;
            arrivalS += Math.max(0.3, 1 + 0.08 * draw.gaussian()) / readingsHz;
        }
        return new SpeedRecord.Readings(Arrays.copyOf(times, n), Arrays.copyOf(speeds, n), true);
    }
}

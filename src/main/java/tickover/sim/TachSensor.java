package tickover.sim;

import java.util.Arrays;
import java.util.Objects;

/**
 * A mark and a pulse counter: unequal marks, jitter, a timer's grid, missed and double pulses.
 *
 * @param pulley the pulley that carries the marks
 * @param pulsesPerTurn marks
 * @param unevenTurns standard deviation of a mark's place, turns
 * @param jitterS standard deviation of a pulse's time, s
 * @param timerS step of the timer, s
 * @param missedRatio share of pulses that are missed
 * @param doubleRatio share of pulses that are counted twice
 */
record TachSensor(
        String pulley,
        int pulsesPerTurn,
        double unevenTurns,
        double jitterS,
        double timerS,
        double missedRatio,
        double doubleRatio) {
    TachSensor {
        Objects.requireNonNull(pulley, "pulley");
        if (!(pulsesPerTurn >= 1)) {
            throw new IllegalArgumentException("pulsesPerTurn=" + pulsesPerTurn + ", need >= 1");
        }
        if (!(timerS > 0)) {
            throw new IllegalArgumentException("timerS=" + timerS + ", need > 0 s");
        }
    }

    /**
     * Records the pulses of a capture.
     *
     * @param part angle of the marked part
     * @param durationS length, s
     * @param marks draws of the marks: the same for every capture of a vehicle
     * @param draw draws of this capture
     * @return the record
     */
    SpeedRecord.Tach record(PartMotion part, double durationS, Draw marks, Draw draw) {
        double[] place = new double[pulsesPerTurn];
        for (int m = 0; m < pulsesPerTurn; m++) {
            double off = pulsesPerTurn == 1 ? 0 : unevenTurns * marks.gaussian();
            place[m] = (double) m / pulsesPerTurn + off;
        }
        double least = 0.1 / pulsesPerTurn;
        for (int m = 1; m < pulsesPerTurn; m++) {
            place[m] = Math.max(place[m], place[m - 1] + least);
        }
        double[] times = new double[64];
        int n = 0;
        double turn = Math.floor(part.turnsAt(0)) - 1;
        boolean over = false;
        while (!over) {
            for (int m = 0; m < pulsesPerTurn; m++) {
                double exactS = part.timeAt(turn + place[m]);
                over = exactS > durationS;
                boolean missed = draw.chance(missedRatio);
                boolean twice = draw.chance(doubleRatio);
                double timeS = onGrid(exactS + jitterS * draw.gaussian());
                double echoS = onGrid(timeS + draw.between(0.0004, 0.004));
                if (timeS < 0 || timeS >= durationS || missed) {
                    continue;
                }
                if (n + 2 > times.length) {
                    times = Arrays.copyOf(times, 2 * times.length);
                }
                times[n++] = timeS;
                if (twice && echoS < durationS) {
                    times[n++] = echoS;
                }
            }
            turn++;
        }
        double[] out = Arrays.copyOf(times, n);
        Arrays.sort(out);
        return new SpeedRecord.Tach(out, pulsesPerTurn, pulley);
    }

    private double onGrid(double timeS) {
        return Math.rint(timeS / timerS) * timerS;
    }
}

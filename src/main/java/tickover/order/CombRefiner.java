package tickover.order;

import java.util.ArrayList;
import java.util.List;
import tickover.align.CaptureSignal;
import tickover.dsp.Statistics;

/**
 * Sharpens a shaft angle by the engine's own orders.
 *
 * <p>The record is resampled with the angle as it is. Each order that repeats with the working
 * cycle then stands nearly still; how it turns is the error of the angle times the order. Over
 * windows of a few turns all such orders together say by how much the angle ran ahead since two
 * turns before (first rounds), or against the mean of the surrounding turns (last rounds). Speed
 * ripple within a cycle averages out and is left alone.
 */
final class CombRefiner {
    private static final int PER_TURN = 64;

    /** Windows follow each other by this part of a turn. */
    private static final int PER_HOP = PER_TURN / 2;

    /** Top order of each round; later rounds may trust higher ones. */
    private static final double[] ROUND_ORDERS = {8, 12, 16, 24, 24, 24, 24};

    /** First round that compares with the surrounding turns instead of two turns before. */
    private static final int FIRST_AGAINST_MEAN = 4;

    /** A shorter record has too few windows. */
    private static final double LEAST_TURNS = 16;

    /** Sharpness that a round of the last kind has to gain for another one to be worth while. */
    private static final double SETTLED = 0.001;

    /** Windows this far apart share little, so that their errors count as independent. */
    private static final int THINNED_HOPS = 2;

    private final CaptureSignal capture;
    private final AnglePrior prior;
    private final double cycleOrder;

    CombRefiner(CaptureSignal capture, AnglePrior prior) {
        this.capture = capture;
        this.prior = prior;
        this.cycleOrder = prior.cycleOrder();
    }

    /** A sharpened angle and how sharp the engine's orders are with it. */
    record Refined(ShaftAngle angle, double sharpness) {}

    /**
     * Runs all rounds, and the last ones alone, and keeps the sharpest angle, perhaps the one it
     * was given: a good start may lose in the first rounds, a poor one needs them.
     */
    Refined refine(ShaftAngle start) {
        List<AngularRecord> startRecords = records(start);
        Refined best = new Refined(start, sharpness(start, startRecords));
        CombVotes votes = null;
        for (int first = 0; first <= FIRST_AGAINST_MEAN; first += FIRST_AGAINST_MEAN) {
            ShaftAngle angle = start;
            List<AngularRecord> records = startRecords;
            double sharpest = Double.NEGATIVE_INFINITY;
            for (int round = first; round < ROUND_ORDERS.length; round++) {
                if (!(angle.endTurns() - angle.startTurns() > LEAST_TURNS)) {
                    return stated(best, votes);
                }
                double top = Math.min(ROUND_ORDERS[round], topOrder(angle));
                boolean againstMean = round >= FIRST_AGAINST_MEAN;
                CombVotes here = new CombVotes(records, PER_HOP, prior, top, againstMean);
                angle = shifted(angle, here);
                records = records(angle);
                double sharpness = sharpness(angle, records);
                if (sharpness > best.sharpness) {
                    best = new Refined(angle, sharpness);
                    votes = here;
                }
                if (round > FIRST_AGAINST_MEAN && sharpness < sharpest + SETTLED) {
                    break;
                }
                sharpest = Math.max(sharpest, sharpness);
            }
        }
        return stated(best, votes);
    }

    /** An angle with the error that its votes tell; as it is where none led to it. */
    private static Refined stated(Refined found, CombVotes votes) {
        return votes == null
                ? found
                : new Refined(found.angle.withSigma(votes.sigmaTurns()), found.sharpness);
    }

    List<AngularRecord> records(ShaftAngle angle) {
        List<AngularRecord> records = new ArrayList<>();
        for (int c = 0; c < capture.channels(); c++) {
            records.add(
                    AngularResampler.resample(
                            capture.accelMps2(c), capture.sampleRateHz(), angle, PER_TURN));
        }
        return records;
    }

    private double topOrder(ShaftAngle angle) {
        double meanHz = (angle.endTurns() - angle.startTurns()) / (angle.endS() - angle.startS());
        return Math.min(0.4 * PER_TURN, 0.4 * capture.sampleRateHz() / meanHz);
    }

    /** The angle with its errors added, smoothed as far as they justify. */
    private static ShaftAngle shifted(ShaftAngle angle, CombVotes votes) {
        int n = (votes.points() - 1) / THINNED_HOPS + 1;
        double[] t = new double[n];
        double[] turns = new double[n];
        for (int i = 0; i < n; i++) {
            double at = votes.turnsAt(i * THINNED_HOPS);
            t[i] = angle.timeAt(at);
            turns[i] = at + votes.errorTurns(i * THINNED_HOPS);
        }
        double[] steps = new double[n - 1];
        for (int i = 0; i + 1 < n; i++) {
            steps[i] = t[i + 1] - t[i];
        }
        double unitS = Statistics.median(steps);
        double typicalHz = (turns[n - 1] - turns[0]) / (t[n - 1] - t[0]);
        KnotGrid grid = new KnotGrid(t, turns, unitS, angle.startS(), angle.endS(), typicalHz);
        AngleSmoother smoother =
                new AngleSmoother(grid.timesS(), grid.turns(), grid.weights(), unitS);
        MotionFinder motion =
                new MotionFinder(grid.timesS(), grid.turns(), grid.weights(), unitS, 0);
        AngleSmoother.Curve curve = smoother.smooth(motion.likeliestEven());
        double[] states = curve.states().clone();
        double zero = states[0];
        for (int i = 0; i < states.length; i += 3) {
            states[i] -= zero;
        }
        return new ShaftAngle(
                AnglePieces.ofStates(grid.timesS(), states), curve.sigmaTurns().clone(), false);
    }

    /**
     * How far the engine's orders stand out of what lies beside them, over frames of 16 turns: mean
     * logarithm of power, orders up to 20.
     */
    double sharpness(ShaftAngle angle) {
        return sharpness(angle, records(angle));
    }

    private double sharpness(ShaftAngle angle, List<AngularRecord> records) {
        int turns = 16;
        double sum = 0;
        int count = 0;
        double top = Math.min(20, topOrder(angle));
        for (AngularRecord record : records) {
            if (record.lengthTurns() < turns) {
                continue;
            }
            double[] rms =
                    OrderSpectrum.of(record, OrderSpectrum.Spec.hann(turns))
                            .values(OrderSpectrum.Scaling.LINE_RMS);
            for (double order = cycleOrder; order <= top; order += cycleOrder) {
                if (prior.nearDrive(order)) {
                    continue;
                }
                int k = (int) Math.round(order * turns);
                double beside =
                        Statistics.median(
                                new double[] {rms[k - 3], rms[k - 4], rms[k + 3], rms[k + 4]});
                sum += Math.log((rms[k] + 1e-15) / (beside + 1e-15));
                count++;
            }
        }
        return count == 0 ? 0 : sum / count;
    }
}

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

    /**
     * First round whose angle may be the result. Those before it have few orders to go by, and
     * their angles were off by half as much again where their spectra looked sharper by chance.
     */
    private static final int FIRST_KEPT = 2;

    /** First round that compares with the surrounding turns instead of two turns before. */
    private static final int FIRST_AGAINST_MEAN = 4;

    /** A shorter record has too few windows. */
    private static final double LEAST_TURNS = 16;

    /** Sharpness that a round of the last kind has to gain for another one to be worth while. */
    private static final double SETTLED = 0.001;

    /**
     * Angles meet whose gains over {@link #MEET_OVER_TURNS} differ by less than this, rms, turns:
     * an eighth of a period of the top order of the second round. Starts that came to one end in
     * simulated captures differed by 0.009 at most, those that came to another by 0.019 at least.
     */
    private static final double MEET_TURNS = 0.01;

    /** What the first rounds look back. */
    private static final double MEET_OVER_TURNS = 2;

    /** Windows this far apart share little, so that their errors count as independent. */
    private static final int THINNED_HOPS = 2;

    private final CaptureSignal capture;
    private final AnglePrior prior;
    private final double cycleOrder;
    private final List<Course> courses = new ArrayList<>();

    CombRefiner(CaptureSignal capture, AnglePrior prior) {
        this.capture = capture;
        this.prior = prior;
        this.cycleOrder = prior.cycleOrder();
    }

    /**
     * An angle and how sharp the engine's orders are with it.
     *
     * @param angle the angle
     * @param sharpness see {@link #sharpness}
     * @param records channels over that angle
     * @param met whether its rounds met those of an earlier start, whose result this is
     */
    record Refined(ShaftAngle angle, double sharpness, List<AngularRecord> records, boolean met) {}

    /** What one start has come to so far. */
    private static final class Course {
        private final List<ShaftAngle> firstAngles = new ArrayList<>();
        private Refined best;
        private CombVotes votes;

        Course(Refined start) {
            best = start;
        }

        void offer(Refined next, CombVotes by) {
            if (next.sharpness > best.sharpness) {
                best = next;
                votes = by;
            }
        }

        /** The best angle, with the error that its votes tell; as it is where none led to it. */
        Refined result(boolean met) {
            ShaftAngle angle =
                    votes == null ? best.angle : best.angle.withSigma(votes.sigmaTurns());
            return new Refined(angle, best.sharpness, best.records, met);
        }
    }

    /**
     * Runs all rounds and keeps the sharpest angle, perhaps the one it was given. Each round finds
     * nearly the same angle from any that is not far off, so a start whose angle meets that of an
     * earlier start after the same round takes that one's result.
     */
    Refined refine(Refined given) {
        Course course = new Course(given);
        Refined last = given;
        double first = 0;
        for (int round = 0; round < FIRST_AGAINST_MEAN; round++) {
            if (!isLongEnough(last.angle)) {
                return course.result(false);
            }
            last = after(last, round, course);
            first = round == 0 ? last.sharpness : first;
            course.firstAngles.add(last.angle);
            for (Course earlier : courses) {
                if (earlier.best.sharpness >= course.best.sharpness && meet(earlier, last, round)) {
                    return earlier.result(true);
                }
            }
        }
        settle(last, course);
        if (given.sharpness > first) {
            // A good start loses in the first rounds.
            settle(given, course);
        }
        courses.add(course);
        return course.result(false);
    }

    /** Runs the last rounds alone, and keeps the sharpest angle, perhaps the one it was given. */
    Refined settle(Refined start) {
        Course course = new Course(start);
        settle(start, course);
        return course.result(false);
    }

    private void settle(Refined from, Course course) {
        Refined last = from;
        double sharpest = Double.NEGATIVE_INFINITY;
        for (int round = FIRST_AGAINST_MEAN; round < ROUND_ORDERS.length; round++) {
            if (!isLongEnough(last.angle)) {
                return;
            }
            last = after(last, round, course);
            if (!(last.sharpness >= sharpest + SETTLED)) {
                return;
            }
            sharpest = last.sharpness;
        }
    }

    private static boolean isLongEnough(ShaftAngle angle) {
        return angle.endTurns() - angle.startTurns() > LEAST_TURNS;
    }

    private Refined after(Refined before, int round, Course course) {
        double top = Math.min(ROUND_ORDERS[round], topOrder(before.angle));
        boolean againstMean = round >= FIRST_AGAINST_MEAN;
        CombVotes votes = new CombVotes(before.records, PER_HOP, prior, top, againstMean);
        Refined after = as(shifted(before.angle, votes));
        if (round >= FIRST_KEPT) {
            course.offer(after, votes);
        }
        return after;
    }

    /** An angle as it is. */
    Refined as(ShaftAngle angle) {
        List<AngularRecord> records = records(angle);
        return new Refined(angle, sharpness(angle, records), records, false);
    }

    /** Whether an angle gains over any two turns what an earlier one does after that round. */
    private static boolean meet(Course earlier, Refined now, int round) {
        if (round >= earlier.firstAngles.size()) {
            return false;
        }
        ShaftAngle own = now.angle;
        ShaftAngle other = earlier.firstAngles.get(round);
        double startS = Math.max(other.startS(), own.startS());
        double endS = Math.min(other.endS(), own.endS());
        int steps = (int) ((own.turnsAt(endS) - own.turnsAt(startS)) / MEET_OVER_TURNS);
        double before = other.turnsAt(startS) - own.turnsAt(startS);
        double squares = 0;
        for (int i = 1; i <= steps; i++) {
            double t = Math.min(endS, startS + (endS - startS) * i / steps);
            double apart = other.turnsAt(t) - own.turnsAt(t);
            squares += (apart - before) * (apart - before);
            before = apart;
        }
        return squares < steps * MEET_TURNS * MEET_TURNS;
    }

    private List<AngularRecord> records(ShaftAngle angle) {
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

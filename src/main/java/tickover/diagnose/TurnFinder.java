package tickover.diagnose;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;
import tickover.drive.LineKind;
import tickover.drive.MeasuredTurns;
import tickover.drive.PartLine;
import tickover.drive.PassLine;
import tickover.drive.Role;

/**
 * Measures how fast each pulley turns by the shake it makes once per turn.
 *
 * <p>Diameters come from a tape measure and belts slip, so the orders that they give are off by a
 * per cent or more. No pulley runs quite true: the lines at once per turn and its multiples, and
 * those of vanes and slots, are there on healthy parts too and give the ratio to a fraction of
 * that. They stand far above the background, so their skirts do too: what counts is where they
 * peak, not whether they stand out. Other pulleys' lines are told apart by where they are
 * strongest. Where two orders are about as likely, the diameters stay.
 */
final class TurnFinder {
    /** What is left open after measuring, as a share. */
    static final double LEFT_OPEN_RATIO = 0.002;

    /** The best order and its close neighbours have to hold this much of the probability. */
    private static final double SURE = 0.9;

    private static final double NEIGHBOUR_RATIO = 0.0025;

    /** Sought this far around the diameters' ratio: what a tape measure allows, and some. */
    private static final double REACH_RATIO = 0.034;

    /** Spread of a ratio of two tape-measured diameters, and of the slip. */
    private static final double TAPE_RATIO = 0.0095;

    /** Multiples of the turn that count, and how much each. */
    private static final double[] MULTIPLE_WEIGHTS = {1, 1, 0.7, 0.7};

    private static final double PASS_WEIGHT = 0.7;

    /** The highest of a few bins of background is about this much above its mean. */
    private static final double CHANCE_RATIO = 3;

    /** What a line that cannot be seen beside the engine's counts as. */
    private static final double BLIND_NATS = 1;

    /** Captures elsewhere hear other pulleys too. */
    private static final double ELSEWHERE_WEIGHT = 0.2;

    private static final double PLACE_WEIGHT = 1.5;
    private static final double MOST_AGAINST_NATS = 6;
    private static final double HEARD_NATS = 2;

    private final PlaceOdds places;
    private final List<CaptureMeasurement> captures;

    private TurnFinder(DriveModel drive, List<CaptureMeasurement> captures) {
        this.places = new PlaceOdds(drive.vehicle());
        this.captures = captures;
    }

    static DriveModel refine(DriveModel drive, List<CaptureMeasurement> captures) {
        TurnFinder finder = new TurnFinder(drive, new Comparison(captures).ordinary());
        DriveModel refined = drive;
        for (DrivePart part : drive.parts()) {
            double found = part.role() == Role.CRANK ? 0 : finder.find(part);
            if (found > 0) {
                refined =
                        refined.withMeasured(
                                part.name(), new MeasuredTurns(found, LEFT_OPEN_RATIO));
            }
        }
        return refined;
    }

    /** Whether a part's speed was measured rather than computed from diameters. */
    static boolean isMeasured(DrivePart part) {
        for (PartLine line : part.lines()) {
            if (line.kind().equals(LineKind.TURN)) {
                return line.uncertaintyRatio() <= LEFT_OPEN_RATIO;
            }
        }
        return false;
    }

    /** The measured turns per crank turn, or 0 if no order is clearly the likeliest. */
    private double find(DrivePart part) {
        if (captures.isEmpty()) {
            return 0;
        }
        double nominal = part.turnsPerCrankTurn() * (1 - Suspects.USUAL_SLIP_RATIO);
        int from = RhythmScan.indexOf(nominal * (1 - REACH_RATIO));
        int to = RhythmScan.indexOf(nominal * (1 + REACH_RATIO));
        double[] score = new double[to - from + 1];
        int best = 0;
        for (int i = 0; i < score.length; i++) {
            double order = RhythmScan.orderAt(from + i);
            double off = Math.log(order / nominal) / TAPE_RATIO;
            score[i] = score(part, order) - off * off / 2;
            best = score[i] > score[best] ? i : best;
        }
        double all = 0;
        double near = 0;
        double bestOrder = RhythmScan.orderAt(from + best);
        for (int i = 0; i < score.length; i++) {
            double chance = Math.exp(score[i] - score[best]);
            all += chance;
            boolean close =
                    Math.abs(RhythmScan.orderAt(from + i) / bestOrder - 1) < NEIGHBOUR_RATIO;
            near += close ? chance : 0;
        }
        return near / all > SURE ? bestOrder : 0;
    }

    private double score(DrivePart part, double order) {
        Map<String, List<CaptureMeasurement>> byPoint = new LinkedHashMap<>();
        for (CaptureMeasurement c : captures) {
            byPoint.computeIfAbsent(c.label().point(), k -> new ArrayList<>()).add(c);
        }
        double sum = 0;
        Map<String, PlaceOdds.Heard> heard = new LinkedHashMap<>();
        for (Map.Entry<String, List<CaptureMeasurement>> e : byPoint.entrySet()) {
            boolean own = e.getKey().equals(part.name());
            double levelDb = 0;
            double atPoint = 0;
            for (CaptureMeasurement c : e.getValue()) {
                double nats = lines(c.motion(), order, part.pulley().passLines());
                sum += own ? nats : ELSEWHERE_WEIGHT * Math.max(0, nats);
                atPoint += nats;
                levelDb += Quantities.turnsDb(c, order) / e.getValue().size();
            }
            heard.put(e.getKey(), new PlaceOdds.Heard(levelDb, atPoint > HEARD_NATS));
        }
        return sum + PLACE_WEIGHT * Math.max(-MOST_AGAINST_NATS, places.nats(part.name(), heard));
    }

    private static double lines(OrderField motion, double turns, List<PassLine> passLines) {
        double sum = 0;
        for (int k = 1; k <= MULTIPLE_WEIGHTS.length; k++) {
            sum += MULTIPLE_WEIGHTS[k - 1] * lineNats(motion, k * turns);
        }
        for (PassLine line : passLines) {
            sum += PASS_WEIGHT * lineNats(motion, line.perTurn() * turns);
        }
        return sum;
    }

    private static double lineNats(OrderField motion, double order) {
        if (order > motion.topOrders()) {
            return 0;
        }
        return motion.isBlind(order)
                ? BLIND_NATS
                : Math.log(Math.max(1, motion.ratioNear(order, 0.6 * motion.stepOrders())))
                        - Math.log(CHANCE_RATIO);
    }
}

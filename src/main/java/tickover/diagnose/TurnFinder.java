package tickover.diagnose;

import java.util.List;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;
import tickover.drive.LineKind;
import tickover.drive.MeasuredTurns;
import tickover.drive.PartLine;
import tickover.drive.Role;

/**
 * Measures how fast each pulley turns by the shake it makes once per turn.
 *
 * <p>Diameters come from a tape measure and belts slip, so the orders that they give are off by a
 * per cent or more. No pulley runs quite true: the line at once per turn is there on healthy parts
 * too, and gives the ratio to a fraction of that. Where no line stands out, or two could be it, the
 * diameters stay.
 */
final class TurnFinder {
    /** A turn line has to stand out this far, in spreads. */
    private static final double CLEAR_SPREADS = 10;

    /** What is left open after measuring, as a share. */
    static final double LEFT_OPEN_RATIO = 0.002;

    /** Pulleys whose ratios are closer than this share cannot be told apart from afar. */
    private static final double TWIN_RATIO = 0.06;

    /** A line off by one spread has to be this much stronger to be believed, dB. */
    private static final double MISFIT_DB = 3;

    private TurnFinder() {}

    static DriveModel refine(DriveModel drive, List<CaptureMeasurement> captures) {
        Comparison comparison = new Comparison(captures);
        DriveModel refined = drive;
        for (DrivePart part : drive.parts()) {
            if (part.role() == Role.CRANK) {
                continue;
            }
            List<CaptureMeasurement> where = comparison.ordinaryAt(part.name());
            if (where.isEmpty() && !hasTwin(part, drive)) {
                where = comparison.ordinary();
            }
            double found = find(part, where);
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

    private static boolean hasTwin(DrivePart part, DriveModel drive) {
        return drive.parts().stream()
                .anyMatch(
                        o ->
                                !o.name().equals(part.name())
                                        && Math.abs(
                                                        o.turnsPerCrankTurn()
                                                                        / part.turnsPerCrankTurn()
                                                                - 1)
                                                < TWIN_RATIO);
    }

    /** The measured turns per crank turn, or 0 if no line is clear. */
    private static double find(DrivePart part, List<CaptureMeasurement> captures) {
        if (captures.isEmpty()) {
            return 0;
        }
        Suspect.Rhythm rhythm =
                Suspect.Rhythm.around(
                        part.turnsPerCrankTurn() * (1 - Suspects.USUAL_SLIP_RATIO),
                        Suspects.TURN_SPREAD_RATIO,
                        List.of());
        double best = Double.NEGATIVE_INFINITY;
        double found = 0;
        int from = PatternScan.indexOf(rhythm.fromOrders());
        int to = PatternScan.indexOf(rhythm.toOrders());
        for (int i = from; i <= to; i++) {
            double order = PatternScan.orderAt(i);
            double score = 0;
            double levelDb = 0;
            for (CaptureMeasurement c : captures) {
                score += c.motionScan().at(order) / Math.sqrt(captures.size());
                levelDb += Quantities.turnDb(c, order) / captures.size();
            }
            double off = Math.log(order / rhythm.centreOrders()) / rhythm.spreadRatio();
            double weighed = levelDb - MISFIT_DB * off * off;
            if (score >= CLEAR_SPREADS && weighed > best) {
                best = weighed;
                found = order;
            }
        }
        return found;
    }
}

package tickover.drive;

import java.util.ArrayList;
import java.util.List;

/** Lists the lines of one pulley per crank turn. */
final class DriveLines {
    private final SearchTolerance tolerance;

    DriveLines(SearchTolerance tolerance) {
        this.tolerance = tolerance;
    }

    List<PartLine> of(Pulley pulley, PulleySpeed speed, List<PartBearing> bearings) {
        List<PartLine> lines = new ArrayList<>();
        double turns = speed.turnsPerCrankTurn();
        double ofTurns = speed.uncertaintyRatio();
        String name = pulley.name();
        lines.add(new PartLine(name, LineKind.TURN, "pulley", turns, ofTurns, List.of()));
        for (PassLine pass : pulley.passLines()) {
            double order = pass.perTurn() * turns;
            lines.add(new PartLine(name, pass.name(), "pulley", order, ofTurns, List.of()));
        }
        for (PartBearing bearing : bearings) {
            addBearing(lines, name, turns, ofTurns, bearing);
        }
        return lines;
    }

    /**
     * Adds the four lines of a bearing. A spot on the turning ring comes under the load once per
     * turn of the pulley, and one on a ball once per turn of the cage: they are modulated at that
     * rate. A spot on the standing ring is always under the same load: no sidebands.
     */
    private void addBearing(
            List<PartLine> lines, String name, double turns, double ofTurns, PartBearing bearing) {
        double ofInternals = bearing.typical() ? tolerance.typicalInternalsRatio() : 0;
        double spread = Math.hypot(Math.hypot(ofTurns, tolerance.bearingSlipRatio()), ofInternals);
        BearingOrders orders = bearing.orders();
        boolean innerTurns = bearing.turningRing() == Ring.INNER;
        double outer = orders.outerRaceOrder() * turns;
        double inner = orders.innerRaceOrder() * turns;
        double ball = 2 * orders.ballSpinOrder() * turns;
        double cage = orders.cageOrder() * turns;
        String source = bearing.label();
        lines.add(
                new PartLine(
                        name,
                        LineKind.BEARING_OUTER_RING,
                        source,
                        outer,
                        spread,
                        innerTurns ? List.of() : around(outer, turns)));
        lines.add(
                new PartLine(
                        name,
                        LineKind.BEARING_INNER_RING,
                        source,
                        inner,
                        spread,
                        innerTurns ? around(inner, turns) : List.of()));
        lines.add(
                new PartLine(
                        name, LineKind.ROLLING_ELEMENT, source, ball, spread, around(ball, cage)));
        lines.add(new PartLine(name, LineKind.CAGE, source, cage, spread, List.of()));
    }

    private static List<Double> around(double order, double spacingOrders) {
        return order > spacingOrders
                ? List.of(order - spacingOrders, order + spacingOrders)
                : List.of(order + spacingOrders);
    }
}

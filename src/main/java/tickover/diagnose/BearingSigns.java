package tickover.diagnose;

import java.util.List;
import java.util.Objects;
import tickover.drive.BearingOrders;
import tickover.drive.Ring;

/**
 * The patterns by which a rolling bearing's faults show, and what was found of each.
 *
 * <p>A spot on the ring that turns passes the load once per turn, so its line carries sidebands one
 * turn away; a spot on the ring that stands still carries none. A spot on a ball strikes both
 * races, twice per turn of the ball, and passes the load with the cage, so it carries sidebands of
 * the cage; where the strikes themselves are too ragged to make lines, what is left is the rhythm
 * in which the odd ball passes the load: the cage's own order.
 *
 * @param outerRing a spot on the outer race
 * @param innerRing a spot on the inner race
 * @param ballSpin a spot on a ball, by its strikes
 * @param cage the cage's rhythm
 */
public record BearingSigns(
        CombFinding outerRing, CombFinding innerRing, CombFinding ballSpin, CombFinding cage) {
    private static final int STRIKE_HARMONICS = 3;
    private static final int CAGE_HARMONICS = 5;

    /**
     * How far a cage's order may be from the kinematic one, over what races may: it carries the
     * whole slip and little else.
     */
    private static final double CAGE_LIMIT_FACTOR = 1.25;

    public BearingSigns {
        Objects.requireNonNull(outerRing, "outerRing");
        Objects.requireNonNull(innerRing, "innerRing");
        Objects.requireNonNull(ballSpin, "ballSpin");
        Objects.requireNonNull(cage, "cage");
    }

    /**
     * Looks for all four.
     *
     * @param spectra envelope order spectra
     * @param bearing orders per turn of the bearing's own turning ring
     * @param turning the ring that turns
     * @param turnOrder turns of that ring per turn of the spectra's reference, &gt; 0; 1 on a bench
     * @param tolerance how far the orders may be off
     * @return what was found
     */
    public static BearingSigns search(
            EnvelopeOrders spectra,
            BearingOrders bearing,
            Ring turning,
            double turnOrder,
            CombTolerance tolerance) {
        Objects.requireNonNull(bearing, "bearing");
        Objects.requireNonNull(turning, "turning");
        if (!(turnOrder > 0 && Double.isFinite(turnOrder))) {
            throw new IllegalArgumentException("turnOrder=" + turnOrder + ", need > 0 per turn");
        }
        return new BearingSigns(
                CombSearch.search(spectra, outerRing(bearing, turning, turnOrder, tolerance)),
                CombSearch.search(spectra, innerRing(bearing, turning, turnOrder, tolerance)),
                CombSearch.search(spectra, ballSpin(bearing, turnOrder, tolerance)),
                CombSearch.search(spectra, cage(bearing, turnOrder, tolerance)));
    }

    /**
     * The pattern of a spot on the outer race.
     *
     * @param bearing orders per turn of its own turning ring
     * @param turning the ring that turns
     * @param turnOrder turns of that ring per turn of the reference
     * @param tolerance how far the order may be off
     * @return the pattern
     */
    public static CombPattern outerRing(
            BearingOrders bearing, Ring turning, double turnOrder, CombTolerance tolerance) {
        return new CombPattern(
                bearing.outerRaceOrder() * turnOrder,
                STRIKE_HARMONICS,
                turning == Ring.OUTER ? List.of(turnOrder) : List.of(),
                tolerance,
                turnOrder,
                false);
    }

    /**
     * The pattern of a spot on the inner race.
     *
     * @param bearing orders per turn of its own turning ring
     * @param turning the ring that turns
     * @param turnOrder turns of that ring per turn of the reference
     * @param tolerance how far the order may be off
     * @return the pattern
     */
    public static CombPattern innerRing(
            BearingOrders bearing, Ring turning, double turnOrder, CombTolerance tolerance) {
        return new CombPattern(
                bearing.innerRaceOrder() * turnOrder,
                STRIKE_HARMONICS,
                turning == Ring.INNER ? List.of(turnOrder) : List.of(),
                tolerance,
                turnOrder,
                false);
    }

    /**
     * The pattern of a spot on a ball.
     *
     * @param bearing orders per turn of its own turning ring
     * @param turnOrder turns of that ring per turn of the reference
     * @param tolerance how far the order may be off
     * @return the pattern
     */
    public static CombPattern ballSpin(
            BearingOrders bearing, double turnOrder, CombTolerance tolerance) {
        return new CombPattern(
                2 * bearing.ballSpinOrder() * turnOrder,
                STRIKE_HARMONICS,
                List.of(bearing.cageOrder() * turnOrder),
                tolerance,
                turnOrder,
                true);
    }

    /**
     * The cage's rhythm.
     *
     * @param bearing orders per turn of its own turning ring
     * @param turnOrder turns of that ring per turn of the reference
     * @param tolerance how far race orders may be off; a cage may be off a little further
     * @return the pattern
     */
    public static CombPattern cage(
            BearingOrders bearing, double turnOrder, CombTolerance tolerance) {
        double cage = bearing.cageOrder();
        return new CombPattern(
                cage * turnOrder,
                CAGE_HARMONICS,
                List.of(),
                new CombTolerance(
                        CAGE_LIMIT_FACTOR * tolerance.limitRatio(), tolerance.sigmaRatio()),
                turnOrder,
                false);
    }
}

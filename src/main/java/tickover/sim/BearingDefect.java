package tickover.sim;

import java.util.Objects;
import tickover.drive.Ring;

/**
 * A spot in a bearing that is struck once per passing ball. The wait between two strikes has a
 * random part that accumulates, so that high harmonics blur. How hard each strike is follows from
 * where in the standing load zone the spot is at that moment.
 *
 * @param bearing the bearing
 * @param kind where the spot is: a ring, a ball or the cage
 * @param strengthMps2 ring amplitude of a strike at full load and idle speed, m/s²
 * @param jitterRatio standard deviation of one wait over its mean
 * @param zone the load zone
 * @param load how it answers loads
 */
record BearingDefect(
        TrueBearing bearing,
        FaultKind kind,
        double strengthMps2,
        double jitterRatio,
        LoadZone zone,
        LoadGain load)
        implements Shaker {
    private static final double TURN = 2 * Math.PI;
    private static final double SPEED_EXPONENT = 1.2;

    /** Strike-to-strike scatter of strength, dB: the surface is never hit the same way twice. */
    private static final double STRIKE_SIGMA_DB = 2;

    /** A ball's spot meets the inner race harder than the outer: smaller contact. */
    private static final double BALL_ON_OUTER_RATIO = 0.7;

    /**
     * A ball's axis wanders, and with it the spot leaves the track; turns of the ring per swing.
     */
    private static final double BALL_WANDER_TURNS = 70;

    BearingDefect {
        Objects.requireNonNull(bearing, "bearing");
        if (!kind.isInBearing() || kind == FaultKind.BEARING_ROUGH) {
            throw new IllegalArgumentException("kind=" + kind + ", need a ring, ball or cage");
        }
        if (!(jitterRatio >= 0 && jitterRatio < 0.2)) {
            throw new IllegalArgumentException(
                    "jitterRatio=" + jitterRatio + ", need 0 to below 0.2");
        }
    }

    /** Strikes per turn of the turning ring. */
    double strikesPerTurn() {
        return switch (kind) {
            case BEARING_OUTER_RING -> bearing.outerRaceOrder();
            case BEARING_INNER_RING -> bearing.innerRaceOrder();
            case ROLLING_ELEMENT -> 2 * bearing.ballSpinOrder();
            case CAGE -> bearing.cageOrder();
            case BEARING_ROUGH, ECCENTRIC, LOOSE, BELT_DAMAGE, TICK, UNSPECIFIED, NONE ->
                    throw new IllegalStateException("kind=" + kind + " strikes nothing");
        };
    }

    /** Turns after one strike at which the next follows. */
    double nextWaitTurns(Draw draw) {
        double spread = Math.max(-0.9, jitterRatio * draw.gaussian());
        return (1 + spread) / strikesPerTurn();
    }

    /** Angle of the spot from the load's direction, rad, at an angle of the turning ring. */
    private double spotAngleRad(double turns, double standingAngleRad) {
        return switch (kind) {
            case BEARING_OUTER_RING ->
                    bearing.turningRing() == Ring.OUTER ? TURN * turns : standingAngleRad;
            case BEARING_INNER_RING ->
                    bearing.turningRing() == Ring.INNER ? TURN * turns : standingAngleRad;
            case ROLLING_ELEMENT, CAGE -> TURN * bearing.cageOrder() * turns;
            case BEARING_ROUGH, ECCENTRIC, LOOSE, BELT_DAMAGE, TICK, UNSPECIFIED, NONE ->
                    throw new IllegalStateException("kind=" + kind + " has no spot");
        };
    }

    @Override
    public void shake(Run run, PartMotion part, Draw draw, Shake shake) {
        double base = load.of(run.condition()) * strengthMps2;
        // Wear on the standing ring collects where the load is.
        double standing = draw.between(-0.5, 0.5) * zone.halfAngleRad();
        double unbalanceDepth = draw.between(0, 0.12);
        double turns = part.turnsAt(0) + draw.between(0, 1) / strikesPerTurn();
        boolean onOuter = false;
        double timeS = part.timeAt(turns);
        while (timeS < run.durationS()) {
            double strength =
                    base
                            * zone.at(spotAngleRad(turns, standing))
                            * (1 + unbalanceDepth * Math.cos(TURN * turns))
                            * draw.ratioOfDb(STRIKE_SIGMA_DB)
                            * run.speedGain(timeS, SPEED_EXPONENT);
            switch (kind) {
                case ROLLING_ELEMENT -> {
                    onOuter = !onOuter;
                    double track = Math.cos(TURN * turns / BALL_WANDER_TURNS);
                    strength *= (onOuter ? BALL_ON_OUTER_RATIO : 1) * (0.35 + 0.65 * track * track);
                    add(run, shake, timeS, strength);
                }
                case CAGE -> rattle(run, part, draw, shake, turns, strength);
                default -> add(run, shake, timeS, strength);
            }
            turns += nextWaitTurns(draw);
            timeS = part.timeAt(turns);
        }
    }

    private static void add(Run run, Shake shake, double timeS, double strength) {
        Impacts.add(shake.impactsMps2, timeS * run.sampleRateHz(), strength);
    }

    /** A broken cage lets several balls knock within a part of its turn. */
    private static void rattle(
            Run run, PartMotion part, Draw draw, Shake shake, double turns, double strength) {
        int knocks = draw.whole(2, 4);
        for (int i = 0; i < knocks; i++) {
            double at = part.timeAt(turns + draw.between(0, 0.15));
            add(run, shake, at, strength * draw.between(0.4, 1));
        }
    }
}

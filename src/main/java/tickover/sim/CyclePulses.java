package tickover.sim;

import java.util.Objects;

/**
 * Something that a cylinder does at its own crank angle once per working cycle: an injector opening
 * and closing, a valve landing, a firing.
 *
 * @param cylinder from 1
 * @param atCycleTurns crank turns into the cycle
 * @param cycleTurns crank turns per working cycle
 * @param strengthMps2 ring amplitude, m/s² at idle
 * @param scatterDb cycle-to-cycle scatter of strength, dB
 * @param jitterTurns cycle-to-cycle scatter of the angle, crank turns
 * @param echoS a second strike after so many seconds; 0 for none
 * @param speedExponent how it grows with speed
 * @param trait what it depends on
 */
record CyclePulses(
        int cylinder,
        double atCycleTurns,
        double cycleTurns,
        double strengthMps2,
        double scatterDb,
        double jitterTurns,
        double echoS,
        double speedExponent,
        Trait trait)
        implements Shaker {
    private static final double ECHO_RATIO = 0.7;
    private static final double DEAD_CYLINDER_RATIO = 0.12;

    /** What a pulse depends on besides speed. */
    enum Trait {
        /** Silent when its injector is unplugged. */
        INJECTOR,
        /** Nearly gone when its injector is unplugged, harder under load. */
        FIRING,
        /** Always there. */
        VALVE
    }

    CyclePulses {
        Objects.requireNonNull(trait, "trait");
    }

    private double conditionGain(Run run) {
        boolean unplugged = run.condition().injectorOff().orElse(0) == cylinder;
        return switch (trait) {
            case INJECTOR -> unplugged ? 0 : 1;
            case FIRING ->
                    unplugged ? DEAD_CYLINDER_RATIO : EngineSound.firingGain(run.condition());
            case VALVE -> 1;
        };
    }

    @Override
    public void shake(Run run, PartMotion part, Draw draw, Shake shake) {
        double base = conditionGain(run) * strengthMps2;
        if (base == 0) {
            return;
        }
        double cycle = Math.floor(part.turnsAt(0) / cycleTurns);
        double timeS = 0;
        while (timeS < run.durationS()) {
            double turns = cycle * cycleTurns + atCycleTurns + jitterTurns * draw.gaussian();
            timeS = part.timeAt(turns);
            double strength =
                    base * draw.ratioOfDb(scatterDb) * run.speedGain(timeS, speedExponent);
            Impacts.add(shake.impactsMps2, timeS * run.sampleRateHz(), strength);
            if (echoS > 0) {
                Impacts.add(
                        shake.impactsMps2,
                        (timeS + echoS) * run.sampleRateHz(),
                        -ECHO_RATIO * strength);
            }
            cycle++;
        }
    }
}

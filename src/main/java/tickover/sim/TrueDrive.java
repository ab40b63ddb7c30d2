package tickover.sim;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import tickover.drive.Engine;
import tickover.drive.Role;

/**
 * Engine and accessory drive as they really are.
 *
 * @param engine the engine, with idle speed and firing order
 * @param pulleys all pulleys; names are unique; one is the crank's
 * @param belts one or more belts
 */
record TrueDrive(Engine engine, List<TruePulley> pulleys, List<TrueBelt> belts) {
    TrueDrive {
        Objects.requireNonNull(engine, "engine");
        pulleys = List.copyOf(pulleys);
        belts = List.copyOf(belts);
        if (pulleys.stream().filter(p -> p.role() == Role.CRANK).count() != 1) {
            throw new IllegalArgumentException("pulleys hold no or several cranks, need one");
        }
    }

    TruePulley crank() {
        return pulleys.stream().filter(p -> p.role() == Role.CRANK).findFirst().orElseThrow();
    }

    Optional<TruePulley> pulley(String name) {
        return pulleys.stream().filter(p -> p.name().equals(name)).findFirst();
    }

    double idleHz() {
        return engine.idleRpm().orElseThrow() / 60;
    }

    /** Turns per crank turn without slip. */
    double turnsPerCrankTurn(TruePulley pulley) {
        return crank().diameterMm() / pulley.diameterMm();
    }

    /** Belt turns per crank turn without creep. */
    double beltOrder(TrueBelt belt) {
        return Math.PI * crank().diameterMm() / belt.run().lengthMm();
    }
}

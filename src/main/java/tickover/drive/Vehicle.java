package tickover.drive;

import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;

/**
 * A vehicle and its accessory drive, as the user measured it.
 *
 * @param unit how the fleet calls it, not blank
 * @param description free text, may be empty
 * @param engine the engine
 * @param belts any number; names are unique
 * @param pulleys any number; names are unique
 */
public record Vehicle(
        String unit, String description, Engine engine, List<Belt> belts, List<Pulley> pulleys) {
    public Vehicle {
        Objects.requireNonNull(unit, "unit");
        Objects.requireNonNull(description, "description");
        Objects.requireNonNull(engine, "engine");
        belts = List.copyOf(belts);
        pulleys = List.copyOf(pulleys);
        if (unit.isBlank()) {
            throw new IllegalArgumentException("unit is blank, need the fleet's name for it");
        }
        Set<String> names = new HashSet<>();
        for (Pulley p : pulleys) {
            if (!names.add(p.name())) {
                throw new IllegalArgumentException("pulley name=" + p.name() + " appears twice");
            }
        }
        Set<String> beltNames = new HashSet<>();
        for (Belt b : belts) {
            if (!beltNames.add(b.name())) {
                throw new IllegalArgumentException("belt name=" + b.name() + " appears twice");
            }
            for (String stop : b.path()) {
                if (!names.contains(stop)) {
                    throw new IllegalArgumentException(
                            "belt " + b.name() + " path names " + stop + ", which is no pulley");
                }
            }
        }
    }

    /**
     * Finds a pulley.
     *
     * @param name its name
     * @return the pulley, or empty
     */
    public Optional<Pulley> pulley(String name) {
        return pulleys.stream().filter(p -> p.name().equals(name)).findFirst();
    }

    /**
     * Finds the crank pulley.
     *
     * @return the first pulley whose role is crank, or empty
     */
    public Optional<Pulley> crankPulley() {
        return pulleys.stream().filter(p -> p.role() == Role.CRANK).findFirst();
    }
}

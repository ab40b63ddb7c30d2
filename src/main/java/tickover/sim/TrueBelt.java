package tickover.sim;

import java.util.List;
import java.util.Objects;

/**
 * A belt as it really is.
 *
 * @param name unique within the drive
 * @param path pulley names in order of contact, the crank first
 * @param run its way around them
 */
record TrueBelt(String name, List<String> path, BeltRun run) {
    TrueBelt {
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(run, "run");
        path = List.copyOf(path);
    }
}

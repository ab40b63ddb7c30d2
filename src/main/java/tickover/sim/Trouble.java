package tickover.sim;

import java.util.Objects;

/**
 * What is wrong with a vehicle.
 *
 * @param component a pulley's name, {@code belt:NAME}, {@code injector-N}, {@code valve-train},
 *     {@code engine} or {@code none}
 * @param kind the fault
 * @param severityRatio 0 for barely more than nothing to 1 for about to fail
 * @param bearing which of the part's bearings, 0-based
 */
record Trouble(String component, FaultKind kind, double severityRatio, int bearing) {
    static final Trouble NONE = new Trouble("none", FaultKind.NONE, 0, 0);

    Trouble {
        Objects.requireNonNull(component, "component");
        Objects.requireNonNull(kind, "kind");
        if (!(severityRatio >= 0 && severityRatio <= 1)) {
            throw new IllegalArgumentException("severityRatio=" + severityRatio + ", need 0 to 1");
        }
        if ((kind == FaultKind.NONE) != component.equals("none")) {
            throw new IllegalArgumentException(
                    "component="
                            + component
                            + ", kind="
                            + kind
                            + ": need none for both or neither");
        }
    }

    /** A strength between two ends, evenly in decibels. */
    double strength(double weakest, double strongest) {
        return weakest * Math.pow(strongest / weakest, severityRatio);
    }

    /** How many times stronger than its neighbours a ticking injector or valve is. */
    double tickRatio() {
        return strength(1.8, 9);
    }
}

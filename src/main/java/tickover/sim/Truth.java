package tickover.sim;

import java.util.Objects;

/**
 * What is really wrong.
 *
 * @param component a pulley's name, {@code belt:NAME}, {@code injector-N}, {@code valve-train},
 *     {@code engine} or {@code none}
 * @param fault what is wrong with it
 * @param severityRatio 0 for barely more than nothing to 1 for about to fail
 */
public record Truth(String component, FaultKind fault, double severityRatio) {
    public Truth {
        Objects.requireNonNull(component, "component");
        Objects.requireNonNull(fault, "fault");
    }
}

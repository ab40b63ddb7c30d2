package tickover.diagnose;

import java.util.List;
import java.util.Objects;

/**
 * One component that could be the source, with its most probable fault.
 *
 * @param component a pulley's name, {@code belt:NAME}, {@code injector-N}, {@code valve-train},
 *     {@code engine} or {@code none}
 * @param fault its most probable fault
 * @param probability that this component is the source, 0 to 1; all candidates add up to 1
 * @param evidence strongest first
 */
public record Candidate(
        String component, Fault fault, double probability, List<Evidence> evidence) {
    /** The component name that stands for a healthy engine. */
    public static final String NONE = "none";

    public Candidate {
        Objects.requireNonNull(component, "component");
        Objects.requireNonNull(fault, "fault");
        evidence = List.copyOf(evidence);
        if (!(probability >= 0 && probability <= 1)) {
            throw new IllegalArgumentException("probability=" + probability + ", need 0 to 1");
        }
    }
}

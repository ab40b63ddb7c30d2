package tickover.diagnose;

import java.util.Objects;

/**
 * One reason for or against a candidate.
 *
 * @param kind what sort of reason
 * @param text one sentence that a mechanic understands, numbers with units
 * @param strengthDb how strong, dB; positive speaks for the candidate, negative against it
 */
public record Evidence(EvidenceKind kind, String text, double strengthDb) {
    public Evidence {
        Objects.requireNonNull(kind, "kind");
        Objects.requireNonNull(text, "text");
        if (!Double.isFinite(strengthDb)) {
            throw new IllegalArgumentException("strengthDb=" + strengthDb + ", need a finite dB");
        }
    }
}

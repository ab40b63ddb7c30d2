package tickover.session;

import java.time.Instant;
import java.util.Objects;
import java.util.UUID;

/**
 * What a recording says of itself.
 *
 * @param id tells it from every other recording
 * @param startedAt when it began
 * @param vehicleToml text of the vehicle's description; empty if there is none
 * @param tachPulley the pulley that carries the tach's mark
 * @param pulsesPerTurn marks on it
 */
record RecordingFacts(
        UUID id, Instant startedAt, String vehicleToml, String tachPulley, int pulsesPerTurn) {
    RecordingFacts {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(startedAt, "startedAt");
        Objects.requireNonNull(vehicleToml, "vehicleToml");
        Objects.requireNonNull(tachPulley, "tachPulley");
    }
}

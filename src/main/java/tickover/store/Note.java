package tickover.store;

import java.time.LocalDateTime;
import java.util.Objects;
import java.util.UUID;

/**
 * Something a person wrote down about a vehicle.
 *
 * @param id unique everywhere
 * @param unit how the fleet calls the vehicle
 * @param at when it was so, local date and time
 * @param part as {@link tickover.diagnose.PartLevel#part}; empty for the whole vehicle
 * @param visitId of the visit that it is about, as text; empty if it is about none
 * @param text what was written
 */
public record Note(
        UUID id, String unit, LocalDateTime at, String part, String visitId, String text) {
    public Note {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(at, "at");
        Objects.requireNonNull(part, "part");
        Objects.requireNonNull(visitId, "visitId");
        if (unit.isBlank()) {
            throw new IllegalArgumentException("unit is blank, need the fleet's name for it");
        }
        if (text.isBlank()) {
            throw new IllegalArgumentException("text is blank, need what is to be remembered");
        }
    }
}

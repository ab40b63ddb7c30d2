package tickover.diagnose;

import java.time.LocalDateTime;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;

/**
 * Something was done to a vehicle that makes earlier levels no measure of later ones: a part
 * replaced, a belt tensioned. Baselines start anew after it.
 *
 * @param id unique everywhere
 * @param unit how the fleet calls the vehicle
 * @param at when it was done; visits after it are after the repair, local date and time
 * @param part as {@link PartLevel#part}; empty for the whole front
 * @param text what was done
 */
public record RepairMark(UUID id, String unit, LocalDateTime at, String part, String text) {
    public RepairMark {
        Objects.requireNonNull(id, "id");
        Objects.requireNonNull(unit, "unit");
        Objects.requireNonNull(at, "at");
        Objects.requireNonNull(part, "part");
        Objects.requireNonNull(text, "text");
        if (unit.isBlank()) {
            throw new IllegalArgumentException("unit is blank, need the fleet's name for it");
        }
    }

    /**
     * Returns whether the mark restarts the baseline of a part.
     *
     * @param other as {@link PartLevel#part}
     * @return true for the part itself, and for every part if the mark is of the whole front
     */
    public boolean concerns(String other) {
        return part.isEmpty() || part.equals(other);
    }

    /**
     * Finds which part was repaired between two visits.
     *
     * @param marks of one vehicle
     * @param before when the earlier visit was, local date and time
     * @param after when the later one was
     * @return the part of the last mark between them that names one; empty if there is none
     */
    public static Optional<String> partBetween(
            List<RepairMark> marks, LocalDateTime before, LocalDateTime after) {
        return marks.stream()
                .filter(m -> !m.part.isEmpty())
                .filter(m -> m.at.isAfter(before) && m.at.isBefore(after))
                .max(Comparator.comparing(RepairMark::at))
                .map(RepairMark::part);
    }
}

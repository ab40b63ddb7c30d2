package tickover.drive;

import java.util.Objects;

/**
 * Something that passes a fixed place so many times per turn: slots, vanes, blades, pistons. Such
 * lines are normal and do not accuse the part.
 *
 * @param name the user's word for it
 * @param perTurn passages per turn of the pulley, &gt; 0
 */
public record PassLine(String name, double perTurn) {
    public PassLine {
        Objects.requireNonNull(name, "name");
        if (!(perTurn > 0 && Double.isFinite(perTurn))) {
            throw new IllegalArgumentException("perTurn=" + perTurn + ", need > 0 per turn");
        }
    }
}

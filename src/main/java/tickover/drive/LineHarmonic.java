package tickover.drive;

import java.util.Objects;

/**
 * A part's line or one of its harmonics.
 *
 * @param line the line
 * @param number which whole multiple of it, 1 for the line itself
 */
public record LineHarmonic(PartLine line, int number) {
    public LineHarmonic {
        Objects.requireNonNull(line, "line");
        if (!(number >= 1)) {
            throw new IllegalArgumentException("number=" + number + ", need >= 1");
        }
    }

    /**
     * Returns where it stands, without slip.
     *
     * @return per crank turn
     */
    public double orders() {
        return number * line.order();
    }

    /**
     * Returns how far from there it may stand.
     *
     * @return per crank turn, to either side
     */
    public double uncertaintyOrders() {
        return orders() * line.uncertaintyRatio();
    }

    /**
     * Returns a short name for it within its part.
     *
     * @return the line's kind, with the number if it is not the line itself: {@code turn x3}
     */
    public String label() {
        return number == 1 ? line.kind() : line.kind() + " x" + number;
    }
}

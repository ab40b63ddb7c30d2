package tickover.drive;

import java.util.Objects;

/**
 * A whole multiple of a part's line.
 *
 * @param line the line
 * @param multiple 1 for the line itself
 */
public record LineMultiple(PartLine line, int multiple) {
    public LineMultiple {
        Objects.requireNonNull(line, "line");
        if (!(multiple >= 1)) {
            throw new IllegalArgumentException("multiple=" + multiple + ", need >= 1");
        }
    }

    /**
     * Returns where it stands, without slip.
     *
     * @return per crank turn
     */
    public double orders() {
        return multiple * line.order();
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
     * @return the line's kind, with the multiple if it is not the line itself: {@code turn x3}
     */
    public String label() {
        return multiple == 1 ? line.kind() : line.kind() + " x" + multiple;
    }
}

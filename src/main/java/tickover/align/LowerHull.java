package tickover.align;

/**
 * Lower convex hull of points in a plane, held in order of {@code x}. Points come in about that
 * order; most lie above the hull and cost a look-up. One thread per instance.
 *
 * <p>Source: [ZhangLiuXia2002], from memory: the line under a cloud of one-way delays that lies
 * closest to it on the whole is the edge of this hull over the mean of {@code x}.
 */
final class LowerHull {
    private final double[] x;
    private final double[] y;
    private int size;

    /**
     * @param most room for vertices; {@link #full} tells when it is used up
     */
    LowerHull(int most) {
        x = new double[most];
        y = new double[most];
    }

    int size() {
        return size;
    }

    double x(int vertex) {
        return x[vertex];
    }

    double y(int vertex) {
        return y[vertex];
    }

    boolean full() {
        return size == x.length;
    }

    void clear() {
        size = 0;
    }

    /**
     * Adds a point; nothing happens if it is above the hull.
     *
     * @throws IllegalStateException if the hull is full
     */
    void add(double px, double py) {
        if (full()) {
            throw new IllegalStateException("hull of " + size + " vertices is full");
        }
        int at = size;
        while (at > 0 && x[at - 1] >= px) {
            at--;
        }
        if (at < size && x[at] == px) {
            if (y[at] <= py) {
                return;
            }
            remove(at);
        }
        if (at > 0 && at < size && !isBelow(at - 1, px, py, at)) {
            return;
        }
        System.arraycopy(x, at, x, at + 1, size - at);
        System.arraycopy(y, at, y, at + 1, size - at);
        x[at] = px;
        y[at] = py;
        size++;
        while (at >= 2 && !isBelow(at - 2, x[at - 1], y[at - 1], at)) {
            remove(--at);
        }
        while (at + 2 < size && !isBelow(at, x[at + 1], y[at + 1], at + 2)) {
            remove(at + 1);
        }
    }

    private void remove(int at) {
        System.arraycopy(x, at + 1, x, at, size - at - 1);
        System.arraycopy(y, at + 1, y, at, size - at - 1);
        size--;
    }

    private boolean isBelow(int left, double px, double py, int right) {
        double cross =
                (x[right] - x[left]) * (py - y[left]) - (y[right] - y[left]) * (px - x[left]);
        return cross < 0;
    }

    /** Least height over a line of this slope through the origin: how far up it may be moved. */
    double rise(double slope, double origin) {
        double least = Double.POSITIVE_INFINITY;
        for (int i = 0; i < size; i++) {
            least = Math.min(least, y[i] - slope * (x[i] - origin));
        }
        return least;
    }

    /**
     * Slope of the edge over a place, of the outermost edge if the place lies beyond it.
     *
     * @return 0 with fewer than two vertices
     */
    double slopeOver(double place) {
        if (size < 2) {
            return 0;
        }
        int right = 1;
        while (right < size - 1 && x[right] < place) {
            right++;
        }
        return (y[right] - y[right - 1]) / (x[right] - x[right - 1]);
    }
}

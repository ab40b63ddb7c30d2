package tickover.align;

import java.util.EnumMap;
import java.util.Map;

/**
 * The last stretch of arrivals and ping bounds, kept as one small hull for each second, so that
 * memory stays the same however many points come. The hull of all points is the hull of the
 * seconds' hulls.
 */
final class ClockWindow {
    /** What lies on which side of the line. */
    enum Side {
        /** Arrivals from below: the line passes under them all. */
        EARLIEST(1),
        /** Arrivals from above: the line passes under them by the longest delay. */
        LATEST(-1),
        /** Moments when a ping was sent: the line passes over them all. */
        BOUNDS(-1);

        /** Hulls of sides with -1 are kept upside down. */
        final int sign;

        Side(int sign) {
            this.sign = sign;
        }
    }

    /** Takes a vertex. */
    interface VertexSink {
        void take(double x, double y);
    }

    /** A second holds some hundreds of points; hulls of random ones have some ten vertices. */
    private static final int MOST_VERTICES = 48;

    private static final double SLOT_S = 1;

    private static final class Slot {
        final Map<Side, LowerHull> hulls = new EnumMap<>(Side.class);
        double fromX;
        double sumX;
        int points;

        Slot() {
            for (Side side : Side.values()) {
                hulls.put(side, new LowerHull(MOST_VERTICES));
            }
        }

        LowerHull hull(Side side) {
            return hulls.get(side);
        }

        boolean full() {
            return hulls.values().stream().anyMatch(LowerHull::full);
        }

        void begin(double x) {
            hulls.values().forEach(LowerHull::clear);
            fromX = x;
            sumX = 0;
            points = 0;
        }
    }

    private final Slot[] slots;
    private int first;
    private int used;
    private double lastX;
    private int change;

    ClockWindow(int slots) {
        this.slots = new Slot[slots];
        for (int i = 0; i < slots; i++) {
            this.slots[i] = new Slot();
        }
    }

    void clear() {
        used = 0;
        first = 0;
        change++;
    }

    void arrival(double x, double y) {
        Slot slot = slotFor(x);
        slot.hull(Side.EARLIEST).add(x, y);
        slot.hull(Side.LATEST).add(x, -y);
        slot.sumX += x;
        slot.points++;
        lastX = Math.max(lastX, x);
    }

    /** Takes a bound from below: the line passes above this point. */
    void bound(double x, double y) {
        slotFor(x).hull(Side.BOUNDS).add(x, -y);
    }

    /** Changes with each second begun: often enough to draw the line anew. */
    int change() {
        return change;
    }

    private Slot slotFor(double x) {
        if (used == 0) {
            lastX = x;
        }
        Slot last = used == 0 ? null : at(used - 1);
        if (last != null && x < last.fromX + SLOT_S && !last.full()) {
            return last;
        }
        change++;
        if (used == slots.length) {
            first = (first + 1) % slots.length;
            used--;
        }
        used++;
        Slot next = at(used - 1);
        next.begin(x);
        return next;
    }

    private Slot at(int i) {
        return slots[(first + i) % slots.length];
    }

    double lastX() {
        return lastX;
    }

    double spanS() {
        return used == 0 ? 0 : lastX - at(0).fromX;
    }

    int points() {
        return pointsFrom(Double.NEGATIVE_INFINITY);
    }

    int pointsFrom(double from) {
        int sum = 0;
        for (int i = 0; i < used; i++) {
            if (at(i).fromX >= from) {
                sum += at(i).points;
            }
        }
        return sum;
    }

    double meanXFrom(double from) {
        double sum = 0;
        double n = 0;
        for (int i = 0; i < used; i++) {
            if (at(i).fromX >= from) {
                sum += at(i).sumX;
                n += at(i).points;
            }
        }
        return n > 0 ? sum / n : lastX;
    }

    /** The hull of one side; its heights are turned over if the side's sign is -1. */
    LowerHull hull(double from, double to, Side side) {
        int[] vertices = {1};
        eachVertex(from, to, side, (x, y) -> vertices[0]++);
        LowerHull all = new LowerHull(vertices[0]);
        eachVertex(from, to, side, all::add);
        return all;
    }

    void eachVertex(double from, double to, Side side, VertexSink sink) {
        for (int i = 0; i < used; i++) {
            if (at(i).fromX >= from && at(i).fromX < to) {
                LowerHull hull = at(i).hull(side);
                for (int v = 0; v < hull.size(); v++) {
                    sink.take(hull.x(v), hull.y(v));
                }
            }
        }
    }
}

package tickover.order;

import java.util.List;
import java.util.OptionalDouble;

/**
 * What is known of the engine before its speed is looked for in the vibration. Nothing of it
 * matters where pulses or an exact speed curve are at hand.
 */
public final class AnglePrior {
    /** A pulley out of true makes its own order and weaker multiples of it. */
    private static final int DRIVE_LINES = 3;

    /** Diameters by tape measure, and slip. */
    private static final double DRIVE_RATIO = 0.015;

    private static final double DRIVE_CLEAR_ORDERS = 0.02;

    private final int cylinders;
    private final int strokes;
    private final Double idleRpm;
    private final boolean idling;
    private final List<Double> driveOrders;

    private AnglePrior(
            int cylinders, int strokes, Double idleRpm, boolean idling, List<Double> driveOrders) {
        if (!(cylinders >= 1 && cylinders <= 16)) {
            throw new IllegalArgumentException("cylinders=" + cylinders + ", need 1 to 16");
        }
        if (!(strokes == 2 || strokes == 4)) {
            throw new IllegalArgumentException("strokes=" + strokes + ", need 2 or 4");
        }
        if (idleRpm != null && !(idleRpm > 0 && Double.isFinite(idleRpm))) {
            throw new IllegalArgumentException("idleRpm=" + idleRpm + ", need > 0 rpm");
        }
        this.cylinders = cylinders;
        this.strokes = strokes;
        this.idleRpm = idleRpm;
        this.idling = idling;
        this.driveOrders = List.copyOf(driveOrders);
    }

    /**
     * An engine of unknown idle speed.
     *
     * @param cylinders number of cylinders, 1 to 16
     * @param strokes 2 or 4
     * @return the prior
     */
    public static AnglePrior of(int cylinders, int strokes) {
        return new AnglePrior(cylinders, strokes, null, false, List.of());
    }

    /**
     * The same with the engine's idle speed.
     *
     * @param value rpm, &gt; 0
     * @return a copy
     */
    public AnglePrior withIdleRpm(double value) {
        return new AnglePrior(cylinders, strokes, value, idling, driveOrders);
    }

    /**
     * The same for a capture at idle: speed is looked for around the idle speed only.
     *
     * @return a copy
     */
    public AnglePrior atIdle() {
        return new AnglePrior(cylinders, strokes, idleRpm, true, driveOrders);
    }

    /**
     * The same with orders of belt-driven lines that may be strong. They are tied to the crank only
     * as well as a belt holds, and are kept out of the search.
     *
     * @param orders per crank turn, each &gt; 0
     * @return a copy
     */
    public AnglePrior withDriveOrders(List<Double> orders) {
        return new AnglePrior(cylinders, strokes, idleRpm, idling, orders);
    }

    /**
     * Returns the number of cylinders.
     *
     * @return 1 to 16
     */
    public int cylinders() {
        return cylinders;
    }

    /**
     * Returns the number of strokes of a working cycle.
     *
     * @return 2 or 4
     */
    public int strokes() {
        return strokes;
    }

    /**
     * Returns the idle speed.
     *
     * @return rpm, empty if not known
     */
    public OptionalDouble idleRpm() {
        return idleRpm == null ? OptionalDouble.empty() : OptionalDouble.of(idleRpm);
    }

    /**
     * Returns whether the engine was at idle.
     *
     * @return true if it was
     */
    public boolean idling() {
        return idling;
    }

    /**
     * Returns orders of belt-driven lines that may be strong.
     *
     * @return per crank turn, perhaps none
     */
    public List<Double> driveOrders() {
        return driveOrders;
    }

    /**
     * Whether a belt-driven line may stand at an order, or so near that only a long look parts
     * them. Such a line keeps step with the engine as an engine order does, and with the wrong
     * speed.
     */
    boolean nearDrive(double order) {
        for (double drive : driveOrders) {
            for (int k = 1; k <= DRIVE_LINES; k++) {
                if (Math.abs(k * drive - order) < DRIVE_RATIO * k * drive + DRIVE_CLEAR_ORDERS) {
                    return true;
                }
            }
        }
        return false;
    }

    /**
     * Returns working cycles per crank turn: the spacing of the engine's own orders.
     *
     * @return 0.5 for four strokes, 1 for two
     */
    public double cycleOrder() {
        return 2.0 / strokes;
    }

    /**
     * Returns firings per crank turn, for even firing.
     *
     * @return cylinders times {@link #cycleOrder}
     */
    public double firingOrder() {
        return cylinders * cycleOrder();
    }
}

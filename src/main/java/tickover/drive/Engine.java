package tickover.drive;

import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;

/** The engine as far as its orders need it. */
public final class Engine {
    private final int cylinders;
    private final int strokes;
    private final Double idleRpm;
    private final List<Integer> firingOrder;

    private Engine(int cylinders, int strokes, Double idleRpm, List<Integer> firingOrder) {
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
        this.firingOrder = List.copyOf(firingOrder);
    }

    /**
     * An engine of unknown idle speed and firing order.
     *
     * @param cylinders number of cylinders, 1 to 16
     * @param strokes 2 or 4
     * @return the engine
     */
    public static Engine of(int cylinders, int strokes) {
        return new Engine(cylinders, strokes, null, List.of());
    }

    /**
     * The same engine with its idle speed.
     *
     * @param value rpm, &gt; 0
     * @return a copy
     */
    public Engine withIdleRpm(double value) {
        return new Engine(cylinders, strokes, value, firingOrder);
    }

    /**
     * The same engine with its firing order.
     *
     * @param value cylinder numbers from 1, each once
     * @return a copy
     */
    public Engine withFiringOrder(List<Integer> value) {
        return new Engine(cylinders, strokes, idleRpm, value);
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
     * @return rpm, empty if not given
     */
    public OptionalDouble idleRpm() {
        return idleRpm == null ? OptionalDouble.empty() : OptionalDouble.of(idleRpm);
    }

    /**
     * Returns the firing order.
     *
     * @return cylinder numbers from 1, empty if not given
     */
    public List<Integer> firingOrder() {
        return firingOrder;
    }

    /**
     * Returns working cycles per crank turn: the order of anything that one cylinder does once.
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
    public double firingOrders() {
        return cylinders * cycleOrder();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof Engine e
                && cylinders == e.cylinders
                && strokes == e.strokes
                && Objects.equals(idleRpm, e.idleRpm)
                && firingOrder.equals(e.firingOrder);
    }

    @Override
    public int hashCode() {
        return Objects.hash(cylinders, strokes, idleRpm, firingOrder);
    }
}

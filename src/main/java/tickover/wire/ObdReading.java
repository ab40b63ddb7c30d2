package tickover.wire;

import java.util.Objects;
import tickover.unit.HostNanos;

/**
 * One value that a control unit gave. It was true some time before the answer.
 *
 * @param quantity what it is
 * @param value in the unit of the quantity
 * @param controlUnit who said it; empty if the adapter does not show it
 * @param asked when the request was handed to the line
 * @param answered when the line with the answer had come
 */
public record ObdReading(
        Quantity quantity, double value, String controlUnit, HostNanos asked, HostNanos answered) {
    /** What a control unit can be asked for, service 01. */
    public enum Quantity {
        /** Crank speed, rpm. */
        ENGINE_SPEED_RPM(0x0C, 2),
        /** Coolant temperature, °C. */
        COOLANT_C(0x05, 1),
        /** Road speed, km/h. */
        ROAD_SPEED_KMH(0x0D, 1),
        /** Voltage at the control unit, V. */
        SUPPLY_V(0x42, 2);

        private final int pid;
        private final int bytes;

        Quantity(int pid, int bytes) {
            this.pid = pid;
            this.bytes = bytes;
        }

        int pid() {
            return pid;
        }

        int bytes() {
            return bytes;
        }

        /** Returns the value of an answer: speed in quarters of 1 rpm, temperature from -40 °C. */
        double value(long data) {
            return switch (this) {
                case ENGINE_SPEED_RPM -> data / 4.0;
                case COOLANT_C -> data - 40.0;
                case ROAD_SPEED_KMH -> data;
                case SUPPLY_V -> data / 1000.0;
            };
        }
    }

    public ObdReading {
        Objects.requireNonNull(quantity, "quantity");
        Objects.requireNonNull(controlUnit, "controlUnit");
        Objects.requireNonNull(asked, "asked");
        Objects.requireNonNull(answered, "answered");
    }
}

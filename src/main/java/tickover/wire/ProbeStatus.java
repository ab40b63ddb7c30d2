package tickover.wire;

import java.util.OptionalDouble;

/**
 * How a probe is doing.
 *
 * @param tick when, ticks modulo 2^32
 * @param droppedSamples samples dropped by the probe since START
 * @param badCommands command frames rejected since power-up
 * @param rawTemperature 0.1 °C; -32768 if not measured
 * @param rawSupply mV; 65535 if not measured
 */
public record ProbeStatus(
        long tick, long droppedSamples, int badCommands, int rawTemperature, int rawSupply) {
    private static final int NO_TEMPERATURE = -32768;
    private static final int NO_SUPPLY = 65535;

    /**
     * Returns the board's temperature.
     *
     * @return °C, if measured
     */
    public OptionalDouble temperatureC() {
        return rawTemperature == NO_TEMPERATURE
                ? OptionalDouble.empty()
                : OptionalDouble.of(rawTemperature / 10.0);
    }

    /**
     * Returns the board's supply.
     *
     * @return V, if measured
     */
    public OptionalDouble supplyV() {
        return rawSupply == NO_SUPPLY
                ? OptionalDouble.empty()
                : OptionalDouble.of(rawSupply / 1000.0);
    }
}

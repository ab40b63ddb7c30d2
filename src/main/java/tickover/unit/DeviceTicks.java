package tickover.unit;

/**
 * A moment on a device's own clock, without wrap.
 *
 * @param value ticks; the device says how many it takes for a second
 */
public record DeviceTicks(long value) implements Comparable<DeviceTicks> {
    @Override
    public int compareTo(DeviceTicks other) {
        return Long.compare(value, other.value);
    }
}

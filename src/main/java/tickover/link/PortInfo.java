package tickover.link;

import java.util.Objects;

/**
 * A serial port as the system lists it.
 *
 * @param path by which it is opened, such as {@code /dev/ttyACM0} or {@code COM5}
 * @param description what the system or the device calls it; may be empty
 * @param deviceKey stays the same when the device is plugged in again, perhaps under another path:
 *     USB vendor, product and serial number where there are, else the path
 */
public record PortInfo(String path, String description, String deviceKey) {
    public PortInfo {
        Objects.requireNonNull(path, "path");
        Objects.requireNonNull(description, "description");
        Objects.requireNonNull(deviceKey, "deviceKey");
    }
}

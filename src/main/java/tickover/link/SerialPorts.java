package tickover.link;

import com.fazecast.jSerialComm.SerialPort;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/** The serial ports that the system lists. */
public final class SerialPorts {
    private SerialPorts() {}

    /**
     * Lists ports. Pseudo-terminals are not listed by systems, but can be opened by their path. Of
     * the two names that macOS gives each port, only the one that can be opened without a carrier
     * ({@code cu}) is listed.
     *
     * @return by path
     */
    public static List<PortInfo> list() {
        return Arrays.stream(PortLibrary.listed())
                .filter(p -> !p.getSystemPortPath().startsWith("/dev/tty."))
                .map(SerialPorts::info)
                .sorted(Comparator.comparing(PortInfo::path))
                .toList();
    }

    private static PortInfo info(SerialPort port) {
        String path = port.getSystemPortPath().replace("\\\\.\\", "");
        String description = port.getPortDescription();
        return new PortInfo(
                path,
                description == null ? "" : description,
                deviceKey(path, port.getVendorID(), port.getProductID(), port.getSerialNumber()));
    }

    /** Without a serial number two boards of one kind are told apart by their paths alone. */
    static String deviceKey(String path, int vendor, int product, String serial) {
        boolean named = serial != null && !serial.isBlank() && !serial.equals("Unknown");
        if (vendor <= 0 || !named) {
            return path;
        }
        return String.format(Locale.ROOT, "usb-%04x-%04x-%s", vendor, product, serial.strip());
    }
}

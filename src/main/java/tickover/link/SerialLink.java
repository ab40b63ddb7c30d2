package tickover.link;

import com.fazecast.jSerialComm.SerialPort;
import java.util.Locale;
import java.util.Objects;
import java.util.OptionalLong;

/**
 * A serial port: 8 data bits, no parity, 1 stop bit, no flow control. Opening raises DTR and RTS as
 * systems do, which restarts many hobby boards. What the system had queued before is handed over as
 * well; finding the first whole frame is the decoder's job.
 */
public final class SerialLink implements ByteLink {
    private static final int DATA_BITS = 8;
    private static final int READ_WAIT_MS = 200;
    private static final int WRITE_WAIT_MS = 1000;

    /** What the system's calls answer when a port is not there, not allowed, or in use. */
    private static final int NO_ENTRY = 2;

    private static final int NOT_PERMITTED = 1;
    private static final int NO_ACCESS = 13;
    private static final int BUSY = 16;
    private static final int WINDOWS_NO_ACCESS = 5;
    private static final int WOULD_BLOCK = 11;
    private static final int BAD_SETTING = 22;
    private static final int NO_TERMINAL = 25;
    private static final int IS_FOLDER = 21;
    private static final int WINDOWS_BAD_SETTING = 87;

    private final SerialPort port;
    private final String path;
    private volatile boolean open = true;

    private SerialLink(SerialPort port, String path) {
        this.port = port;
        this.path = path;
    }

    /**
     * Opens a port.
     *
     * @param path by which the system knows it, listed or not
     * @param baud speed of the line, bits a second, &gt; 0
     * @return the open port
     * @throws LinkException if it is not there, may not be opened, does not run at this speed, or
     *     another program has it
     */
    public static SerialLink open(String path, int baud) {
        Objects.requireNonNull(path, "path");
        if (!(baud > 0)) {
            throw new IllegalArgumentException("baud=" + baud + ", need > 0 bits a second");
        }
        SerialPort port = PortLibrary.port(path);
        port.setComPortParameters(baud, DATA_BITS, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
        port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
        port.setComPortTimeouts(
                SerialPort.TIMEOUT_READ_SEMI_BLOCKING | SerialPort.TIMEOUT_WRITE_BLOCKING,
                READ_WAIT_MS,
                WRITE_WAIT_MS);
        if (!port.openPort()) {
            throw refused(
                    path,
                    baud,
                    port.getLastErrorCode(),
                    port.getLastErrorLocation() > 0,
                    System.getProperty("os.name", ""));
        }
        OptionalLong actual = LineSpeed.of(path);
        if (actual.isPresent() && !LineSpeed.isNear(actual.getAsLong(), baud)) {
            port.closePort();
            throw noSuchSpeed(path, baud);
        }
        return new SerialLink(port, path);
    }

    private static LinkException noSuchSpeed(String path, int baud) {
        return new LinkException(
                LinkException.Reason.NO_SUCH_SPEED,
                path
                        + " does not run at "
                        + baud
                        + " Bd; give the speed that the device is set to, such as 115200",
                null);
    }

    /** Says why a port did not open, and what to do about it on this system. */
    static LinkException refused(String path, int baud, int code, boolean located, String system) {
        String name = system.toLowerCase(Locale.ROOT);
        boolean windows = name.startsWith("windows");
        if (code == NO_ACCESS || code == NOT_PERMITTED) {
            return new LinkException(
                    LinkException.Reason.NO_PERMISSION,
                    "you may not open "
                            + path
                            + (name.startsWith("linux")
                                    ? "; run 'sudo usermod -aG dialout $USER' once (on some systems"
                                            + " the group is uucp), then log out and in again"
                                    : "; ask whoever looks after this computer for the right to"
                                            + " use serial ports"),
                    null);
        }
        if (windows && code == WINDOWS_NO_ACCESS) {
            return busy(path, "; close the other program, or unplug the device and plug it in");
        }
        if (!windows && (code == BUSY || code == WOULD_BLOCK || (code == NO_ENTRY && located))) {
            return busy(
                    path,
                    name.startsWith("linux")
                            ? "; close that program ('fuser "
                                    + path
                                    + "' names it; ModemManager holds new ports for half a minute)"
                            : "; close that program, and open the name with cu, not tty");
        }
        if (!windows && (code == NO_TERMINAL || code == IS_FOLDER)) {
            return new LinkException(
                    LinkException.Reason.NO_SUCH_PORT,
                    path + " is no serial port; see 'tickover ports --list' for those that are",
                    null);
        }
        if (code == (windows ? WINDOWS_BAD_SETTING : BAD_SETTING)) {
            return noSuchSpeed(path, baud);
        }
        return new LinkException(
                LinkException.Reason.FAILED,
                path + " cannot be opened (the system says " + code + "); unplug it and try again",
                null);
    }

    private static LinkException busy(String path, String advice) {
        return new LinkException(
                LinkException.Reason.BUSY, "another program has " + path + advice, null);
    }

    @Override
    public String name() {
        return path;
    }

    @Override
    public int read(byte[] into) {
        if (!open) {
            throw gone();
        }
        int count = port.readBytes(into, into.length);
        if (count < 0) {
            close();
            throw gone();
        }
        return count;
    }

    @Override
    public void write(byte[] bytes) {
        int at = 0;
        while (at < bytes.length) {
            int count = open ? port.writeBytes(bytes, bytes.length - at, at) : -1;
            if (count <= 0) {
                throw open && count == 0
                        ? new LinkException(
                                LinkException.Reason.FAILED,
                                path + " takes no bytes; unplug it and plug it in again",
                                null)
                        : gone();
            }
            at += count;
        }
    }

    private LinkException gone() {
        return new LinkException(
                LinkException.Reason.GONE, path + " is gone; plug it in again", null);
    }

    @Override
    public void close() {
        open = false;
        port.closePort();
    }
}

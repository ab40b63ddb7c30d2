package tickover.link;

import com.sun.jna.LastErrorException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalLong;

/**
 * The speed at which a line that this program has open really runs. A driver that cannot do the
 * speed that it was asked for takes another one and reports no error; on Linux it can be asked.
 */
final class LineSpeed {
    /** As 32-bit and 64-bit ARM, x86 and RISC-V have it: four flag words, a byte, 19 bytes. */
    private static final long GET_SETTINGS = 0x802C542AL;

    private static final int SETTINGS_BYTES = 44;
    private static final int OUT_SPEED_AT = 40;

    /** Two ends this far apart still understand each other; a real board is off by 2.1 %. */
    private static final double MOST_OFF_RATIO = 0.03;

    private LineSpeed() {}

    /** Whether a line that runs at one speed can stand for another, both in bits a second. */
    static boolean isNear(long actualBaud, long wantedBaud) {
        return Math.abs(actualBaud - wantedBaud) <= MOST_OFF_RATIO * wantedBaud;
    }

    /**
     * Asks.
     *
     * @param path of a port that this program has open
     * @return bits a second; empty where the system does not tell
     */
    static OptionalLong of(String path) {
        if (!System.getProperty("os.name", "").startsWith("Linux")) {
            return OptionalLong.empty();
        }
        try (DirectoryStream<Path> files = Files.newDirectoryStream(Path.of("/proc/self/fd"))) {
            Path port = Path.of(path).toRealPath();
            for (Path file : files) {
                if (leadsTo(file, port)) {
                    return settings(Integer.parseInt(file.getFileName().toString()));
                }
            }
        } catch (IOException | LastErrorException | UnsatisfiedLinkError e) {
            // The speed stays as it was set, unasked.
            return OptionalLong.empty();
        }
        return OptionalLong.empty();
    }

    /** Another thread may close a file meanwhile. */
    private static boolean leadsTo(Path file, Path port) {
        try {
            return Files.readSymbolicLink(file).equals(port);
        } catch (IOException e) {
            return false;
        }
    }

    private static OptionalLong settings(int fd) {
        byte[] settings = new byte[SETTINGS_BYTES];
        SystemCalls.loaded().ioctl(fd, GET_SETTINGS, settings);
        int baud = ByteBuffer.wrap(settings).order(ByteOrder.nativeOrder()).getInt(OUT_SPEED_AT);
        return baud == 0 ? OptionalLong.empty() : OptionalLong.of(Integer.toUnsignedLong(baud));
    }
}

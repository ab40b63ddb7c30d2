package tickover.link;

import com.sun.jna.LastErrorException;
import com.sun.jna.Library;
import com.sun.jna.Native;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Objects;

/**
 * The master side of a pseudo-terminal: whatever is written here is read by whoever opened {@link
 * #path} as a serial port, and the other way round. Closing it is how an unplug looks from there.
 * Linux and macOS have them.
 */
public final class PseudoTerminal implements ByteLink {
    private static final int READ_WRITE = 2;
    private static final int LINUX_NO_CONTROLLING_TERMINAL = 0x100;

    /** A write that finds the other side full comes back, so that closing need not wait for it. */
    private static final int LINUX_NO_BLOCKING = 0x800;

    private static final int MAC_NO_CONTROLLING_TERMINAL = 0x20000;
    private static final short POLL_IN = 1;
    private static final short POLL_OUT = 4;
    private static final int WAIT_MS = 100;
    private static final int PATH_BYTES = 128;

    /** More than any system's terminal settings take. */
    private static final int SETTINGS_BYTES = 256;

    /** Linux says so when nobody has the other side open. */
    private static final int ERROR_NO_PEER = 5;

    /** A signal came in between: no fault, only a reason to ask again. */
    private static final int ERROR_INTERRUPTED = 4;

    private static final int LINUX_ERROR_TRY_AGAIN = 11;
    private static final int MAC_ERROR_TRY_AGAIN = 35;

    /** Short enough for any terminal's buffer, where the system cannot promise not to block. */
    private static final int MOST_BYTES_AT_ONCE = 512;

    /** The calls of the system's C library, by its own names. */
    private interface SystemCalls extends Library {
        int posix_openpt(int flags) throws LastErrorException;

        int grantpt(int fd) throws LastErrorException;

        int unlockpt(int fd) throws LastErrorException;

        int ptsname_r(int fd, byte[] path, long length) throws LastErrorException;

        int open(String path, int flags) throws LastErrorException;

        int tcgetattr(int fd, byte[] settings) throws LastErrorException;

        void cfmakeraw(byte[] settings);

        int tcsetattr(int fd, int when, byte[] settings) throws LastErrorException;

        int poll(byte[] what, long count, int waitMs) throws LastErrorException;

        long read(int fd, byte[] into, long count) throws LastErrorException;

        long write(int fd, byte[] from, long count) throws LastErrorException;

        int close(int fd) throws LastErrorException;
    }

    /** Loaded at first use: commands that need no terminal do not pay for it. */
    private static final class Calls {
        private static final SystemCalls SYSTEM = Native.load("c", SystemCalls.class);
    }

    private final int master;
    private final String path;
    private final Object reading = new Object();
    private final Object writing = new Object();
    private volatile boolean open = true;
    private boolean closed;

    private PseudoTerminal(int master, String path) {
        this.master = master;
        this.path = path;
    }

    /**
     * Makes a pair.
     *
     * @return its master side
     * @throws LinkException if the system has no pseudo-terminals, or none left
     */
    public static PseudoTerminal open() {
        String system = System.getProperty("os.name", "");
        boolean mac = system.startsWith("Mac");
        if (!mac && !system.startsWith("Linux")) {
            throw new LinkException(
                    LinkException.Reason.FAILED,
                    system + " has no pseudo-terminals; Linux and macOS have",
                    null);
        }
        int flags =
                READ_WRITE | (mac ? MAC_NO_CONTROLLING_TERMINAL : LINUX_NO_CONTROLLING_TERMINAL);
        try {
            SystemCalls calls = Calls.SYSTEM;
            int master = calls.posix_openpt(mac ? flags : flags | LINUX_NO_BLOCKING);
            calls.grantpt(master);
            calls.unlockpt(master);
            byte[] path = new byte[PATH_BYTES];
            calls.ptsname_r(master, path, path.length);
            String name = Native.toString(path, StandardCharsets.US_ASCII.name());
            makeRaw(calls, name, flags);
            return new PseudoTerminal(master, name);
        } catch (LastErrorException | UnsatisfiedLinkError e) {
            throw new LinkException(
                    LinkException.Reason.FAILED,
                    "no pseudo-terminal can be made: " + e.getMessage(),
                    e);
        }
    }

    /** Bytes pass as they are from the start: without this the line would echo and edit them. */
    private static void makeRaw(SystemCalls calls, String name, int flags) {
        int other = calls.open(name, flags);
        byte[] settings = new byte[SETTINGS_BYTES];
        calls.tcgetattr(other, settings);
        calls.cfmakeraw(settings);
        calls.tcsetattr(other, 0, settings);
        calls.close(other);
    }

    /**
     * Returns the path by which the other side is opened.
     *
     * @return such as {@code /dev/pts/3}
     */
    public String path() {
        return path;
    }

    @Override
    public String name() {
        return path;
    }

    @Override
    public int read(byte[] into) {
        synchronized (reading) {
            requireOpen();
            try {
                if (!ready(POLL_IN)) {
                    return 0;
                }
                return (int) Math.max(0, Calls.SYSTEM.read(master, into, into.length));
            } catch (LastErrorException e) {
                return isPassing(e) ? 0 : withoutPeer(e);
            }
        }
    }

    /** Nobody has opened the other side: a master does not mind, it waits. */
    private int withoutPeer(LastErrorException e) {
        if (e.getErrorCode() != ERROR_NO_PEER) {
            throw gone(e);
        }
        try {
            Thread.sleep(WAIT_MS / 2);
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
        }
        return 0;
    }

    private boolean ready(short event) {
        ByteBuffer what = ByteBuffer.allocate(8).order(ByteOrder.nativeOrder());
        what.putInt(master).putShort(event).putShort((short) 0);
        byte[] bytes = what.array();
        Calls.SYSTEM.poll(bytes, 1, WAIT_MS);
        return (ByteBuffer.wrap(bytes).order(ByteOrder.nativeOrder()).getShort(6) & event) != 0;
    }

    /** Nothing is wrong, it only did not work this time. */
    private static boolean isPassing(LastErrorException e) {
        int code = e.getErrorCode();
        return code == ERROR_INTERRUPTED
                || code == LINUX_ERROR_TRY_AGAIN
                || code == MAC_ERROR_TRY_AGAIN;
    }

    @Override
    public void write(byte[] bytes) {
        Objects.requireNonNull(bytes, "bytes");
        int at = 0;
        while (at < bytes.length) {
            int to = Math.min(bytes.length, at + MOST_BYTES_AT_ONCE);
            at += writeSome(Arrays.copyOfRange(bytes, at, to));
        }
    }

    /** Writes what fits, perhaps nothing, and lets a closer in after each try. */
    private int writeSome(byte[] bytes) {
        synchronized (writing) {
            requireOpen();
            try {
                return ready(POLL_OUT)
                        ? (int) Math.max(0, Calls.SYSTEM.write(master, bytes, bytes.length))
                        : 0;
            } catch (LastErrorException e) {
                if (isPassing(e)) {
                    return 0;
                }
                throw gone(e);
            }
        }
    }

    private void requireOpen() {
        if (!open) {
            throw gone(null);
        }
    }

    private LinkException gone(LastErrorException cause) {
        return new LinkException(LinkException.Reason.GONE, path + " was closed", cause);
    }

    @Override
    public void close() {
        open = false;
        // Both let go within their wait; the file number must not be given away before.
        synchronized (reading) {
            synchronized (writing) {
                if (!closed) {
                    closed = true;
                    try {
                        Calls.SYSTEM.close(master);
                    } catch (LastErrorException e) {
                        // The number is free either way, and there is nothing left to lose.
                    }
                }
            }
        }
    }
}

package tickover.link;

import com.sun.jna.LastErrorException;
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
    private static final int MAC_NO_CONTROLLING_TERMINAL = 0x20000;
    private static final short POLL_IN = 1;
    private static final short POLL_OUT = 4;
    private static final int WAIT_MS = 100;
    private static final int PATH_BYTES = 128;

    /** More than any system's terminal settings take. */
    private static final int SETTINGS_BYTES = 256;

    private static final int SET_FLAGS = 4;
    private static final int LINUX_NO_WAITING = 0x800;
    private static final int MAC_NO_WAITING = 0x4;

    /** Linux says so when nobody has the other side open. */
    private static final int ERROR_NO_PEER = 5;

    private static final int ERROR_INTERRUPTED = 4;
    private static final int LINUX_ERROR_FULL = 11;
    private static final int MAC_ERROR_FULL = 35;

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
            SystemCalls calls = SystemCalls.loaded();
            int master = calls.posix_openpt(flags);
            calls.grantpt(master);
            calls.unlockpt(master);
            byte[] path = new byte[PATH_BYTES];
            calls.ptsname_r(master, path, path.length);
            String name = Native.toString(path, StandardCharsets.US_ASCII.name());
            makeRaw(calls, name, flags);
            // Else a write of more than there is room for would hold up whoever closes.
            calls.fcntl(master, SET_FLAGS, READ_WRITE | (mac ? MAC_NO_WAITING : LINUX_NO_WAITING));
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
                return (int) Math.max(0, SystemCalls.loaded().read(master, into, into.length));
            } catch (LastErrorException e) {
                return nothing(e);
            }
        }
    }

    /** Nothing passed, for a reason that is over soon; anything else is the end. */
    private int nothing(LastErrorException e) {
        switch (e.getErrorCode()) {
            case ERROR_INTERRUPTED, LINUX_ERROR_FULL, MAC_ERROR_FULL -> {}
            case ERROR_NO_PEER -> rest();
            default -> throw gone(e);
        }
        return 0;
    }

    /** Nobody has opened the other side, of which polling tells at once: a master waits. */
    private static void rest() {
        try {
            Thread.sleep(WAIT_MS / 2);
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    private boolean ready(short event) {
        ByteBuffer what = ByteBuffer.allocate(8).order(ByteOrder.nativeOrder());
        what.putInt(master).putShort(event).putShort((short) 0);
        byte[] bytes = what.array();
        boolean told = SystemCalls.loaded().poll(bytes, 1, WAIT_MS) > 0;
        boolean ready =
                (ByteBuffer.wrap(bytes).order(ByteOrder.nativeOrder()).getShort(6) & event) != 0;
        if (told && !ready) {
            rest();
        }
        return ready;
    }

    @Override
    public void write(byte[] bytes) {
        Objects.requireNonNull(bytes, "bytes");
        synchronized (writing) {
            int at = 0;
            while (at < bytes.length) {
                requireOpen();
                byte[] rest = at == 0 ? bytes : Arrays.copyOfRange(bytes, at, bytes.length);
                at += writeSome(rest);
            }
        }
    }

    private int writeSome(byte[] bytes) {
        try {
            return ready(POLL_OUT)
                    ? (int) Math.max(0, SystemCalls.loaded().write(master, bytes, bytes.length))
                    : 0;
        } catch (LastErrorException e) {
            return nothing(e);
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
                closeOnce();
            }
        }
    }

    private void closeOnce() {
        if (!closed) {
            closed = true;
            try {
                SystemCalls.loaded().close(master);
            } catch (LastErrorException e) {
                // The number is free either way, and there is nothing left to lose.
            }
        }
    }
}

package tickover.link;

import com.sun.jna.LastErrorException;
import com.sun.jna.Library;
import com.sun.jna.Native;

/** The calls of the C library on Linux and macOS, by its own names. */
interface SystemCalls extends Library {
    /** Loaded at first use: commands that need none of them do not pay for it. */
    final class Loaded {
        private static final SystemCalls SYSTEM = Native.load("c", SystemCalls.class);

        private Loaded() {}
    }

    /**
     * Returns the calls.
     *
     * @throws UnsatisfiedLinkError if this system has none of them
     */
    static SystemCalls loaded() {
        return Loaded.SYSTEM;
    }

    int posix_openpt(int flags) throws LastErrorException;

    int grantpt(int fd) throws LastErrorException;

    int unlockpt(int fd) throws LastErrorException;

    int ptsname_r(int fd, byte[] path, long length) throws LastErrorException;

    int open(String path, int flags) throws LastErrorException;

    int fcntl(int fd, int command, Object... arguments) throws LastErrorException;

    int ioctl(int fd, long request, Object... arguments) throws LastErrorException;

    int tcgetattr(int fd, byte[] settings) throws LastErrorException;

    void cfmakeraw(byte[] settings);

    int tcsetattr(int fd, int when, byte[] settings) throws LastErrorException;

    int poll(byte[] what, long count, int waitMs) throws LastErrorException;

    long read(int fd, byte[] into, long count) throws LastErrorException;

    long write(int fd, byte[] from, long count) throws LastErrorException;

    int close(int fd) throws LastErrorException;

    int sigaction(int signal, byte[] now, byte[] before) throws LastErrorException;
}

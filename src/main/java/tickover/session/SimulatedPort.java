package tickover.session;

import java.util.Arrays;
import tickover.link.ByteLink;
import tickover.link.LinkException;
import tickover.link.PseudoTerminal;

/**
 * A simulated device behind a pseudo-terminal, so that it is opened and read like any other port.
 * Two threads carry bytes between the two.
 */
public final class SimulatedPort implements AutoCloseable {
    private static final int BUFFER_BYTES = 65_536;
    private static final long JOIN_MS = 2000;

    private final PseudoTerminal terminal;
    private final ByteLink device;
    private final Thread toPort;
    private final Thread toDevice;
    private volatile boolean open = true;

    /**
     * Makes the port and starts to play.
     *
     * @param device the device's own line
     * @throws LinkException if this system has no pseudo-terminals
     */
    public SimulatedPort(ByteLink device) {
        this.device = device;
        this.terminal = PseudoTerminal.open();
        this.toPort = new Thread(() -> carry(device, terminal), "tickover-simulated-out");
        this.toDevice = new Thread(() -> carry(terminal, device), "tickover-simulated-in");
        for (Thread thread : new Thread[] {toPort, toDevice}) {
            thread.setDaemon(true);
            thread.start();
        }
    }

    private void carry(ByteLink from, ByteLink to) {
        byte[] buffer = new byte[BUFFER_BYTES];
        try {
            while (open) {
                int count = from.read(buffer);
                if (count > 0) {
                    to.write(Arrays.copyOf(buffer, count));
                }
            }
        } catch (LinkException e) {
            // One of the two was closed, which is how an unplug looks from here.
            open = false;
        }
    }

    /**
     * Returns the path by which the port is opened.
     *
     * @return such as {@code /dev/pts/3}
     */
    public String path() {
        return terminal.path();
    }

    /** Unplugs the port. */
    @Override
    public void close() {
        open = false;
        terminal.close();
        device.close();
        try {
            toPort.join(JOIN_MS);
            toDevice.join(JOIN_MS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}

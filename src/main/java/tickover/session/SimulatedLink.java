package tickover.session;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Objects;
import tickover.link.ByteLink;
import tickover.link.LinkException;
import tickover.sim.LineTrouble;
import tickover.sim.SimulatedDevice;

/**
 * A simulated device played in real time, without a port in between. What it sends passes through a
 * bad line on its way.
 */
public final class SimulatedLink implements ByteLink {
    private static final long STEP_MS = 2;
    private static final long READ_WAIT_NS = 200_000_000;
    private static final double NANOS_PER_S = 1e9;

    /** Bytes on their way, and when they arrive. */
    @SuppressWarnings("ArrayRecordComponent") // handed over once and never compared
    private record Arrival(double atS, byte[] bytes) {}

    private final String name;
    private final SimulatedDevice device;
    private final LineTrouble trouble;
    private final long originNanos;
    private final Deque<Arrival> onTheWay = new ArrayDeque<>();
    private byte[] rest = new byte[0];
    private int restFrom;
    private boolean open = true;

    /**
     * Connects a device.
     *
     * @param name what a person calls the line
     * @param device the device
     * @param trouble what the line does to its bytes
     * @param originNanos {@link System#nanoTime} at the device's time 0
     */
    public SimulatedLink(
            String name, SimulatedDevice device, LineTrouble trouble, long originNanos) {
        this.name = Objects.requireNonNull(name, "name");
        this.device = Objects.requireNonNull(device, "device");
        this.trouble = Objects.requireNonNull(trouble, "trouble");
        this.originNanos = originNanos;
    }

    private double nowS() {
        return (System.nanoTime() - originNanos) / NANOS_PER_S;
    }

    @Override
    public String name() {
        return name;
    }

    @Override
    public int read(byte[] into) {
        long until = System.nanoTime() + READ_WAIT_NS;
        while (true) {
            int count = take(into);
            if (count > 0 || System.nanoTime() > until) {
                return count;
            }
            try {
                Thread.sleep(STEP_MS);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                return 0;
            }
        }
    }

    private synchronized int take(byte[] into) {
        if (!open) {
            throw new LinkException(LinkException.Reason.GONE, name + " was closed", null);
        }
        double nowS = nowS();
        byte[] sent = device.sentBy(nowS);
        if (sent.length > 0) {
            byte[] arriving = trouble.damaged(sent);
            double last = onTheWay.isEmpty() ? 0 : onTheWay.getLast().atS();
            onTheWay.add(new Arrival(Math.max(last, trouble.arrivalS(nowS)), arriving));
        }
        int count = 0;
        while (count < into.length) {
            if (restFrom == rest.length) {
                if (onTheWay.isEmpty() || onTheWay.peek().atS() > nowS) {
                    break;
                }
                rest = onTheWay.remove().bytes();
                restFrom = 0;
            }
            int n = Math.min(into.length - count, rest.length - restFrom);
            System.arraycopy(rest, restFrom, into, count, n);
            count += n;
            restFrom += n;
        }
        return count;
    }

    @Override
    public synchronized void write(byte[] bytes) {
        if (!open) {
            throw new LinkException(LinkException.Reason.GONE, name + " was closed", null);
        }
        device.hear(bytes, nowS());
    }

    @Override
    public synchronized void close() {
        open = false;
    }
}

package tickover.session;

import java.util.List;
import tickover.unit.HostNanos;

/**
 * Says what has to be sent to a device, live only: nothing of the derived stream depends on it but
 * by the bytes that it sends and those that come back. Called from one thread.
 */
interface SourceDriver {
    /** The line was opened, for the first time or again. */
    void opened(HostNanos at);

    /** Bytes came. */
    void heard(byte[] bytes, HostNanos at);

    /** What to send now, perhaps nothing. */
    List<byte[]> due(HostNanos now);

    /** Whether the device owes an answer that has to be waited for before the next command. */
    boolean awaits(HostNanos now);

    /** When {@link #due} has to be asked again at the latest, s from now, if nothing is heard. */
    double untilDueS(HostNanos now);

    /** What to send before the line is closed, perhaps nothing. */
    List<byte[]> farewell();

    /** What stands in the way, as one sentence; empty if nothing does. */
    String problem();

    /** A device that only talks. */
    static SourceDriver silent() {
        return new SourceDriver() {
            @Override
            public void opened(HostNanos at) {}

            @Override
            public void heard(byte[] bytes, HostNanos at) {}

            @Override
            public List<byte[]> due(HostNanos now) {
                return List.of();
            }

            @Override
            public boolean awaits(HostNanos now) {
                return false;
            }

            @Override
            public double untilDueS(HostNanos now) {
                return Double.POSITIVE_INFINITY;
            }

            @Override
            public List<byte[]> farewell() {
                return List.of();
            }

            @Override
            public String problem() {
                return "";
            }
        };
    }
}

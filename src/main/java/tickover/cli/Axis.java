package tickover.cli;

import java.util.Locale;
import tickover.session.TrackedCapture;

/** A channel of a capture, by the name it has in visit folders. */
enum Axis {
    X(0),
    Y(1),
    Z(2);

    private final int channel;

    Axis(int channel) {
        this.channel = channel;
    }

    /** Returns the channel's number, if the capture has it. */
    int channelOf(TrackedCapture capture, String name) {
        if (!(channel < capture.channels())) {
            throw CliException.badInput(
                    name
                            + " has "
                            + capture.channels()
                            + (capture.channels() == 1 ? " channel" : " channels")
                            + ", so there is no axis "
                            + this);
        }
        return channel;
    }

    /** The name as it is written on the command line. */
    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT);
    }
}

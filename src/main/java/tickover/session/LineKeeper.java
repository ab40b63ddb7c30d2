package tickover.session;

import java.util.List;
import tickover.link.Chunk;
import tickover.unit.HostNanos;

/** What the keeper knows of one line: whom it talks to, and how much came. One thread. */
final class LineKeeper {
    /** The data rate follows what came over about this time, s. */
    private static final double RATE_OVER_S = 2;

    private final int source;
    private final SourceInfo info;
    private final StreamPipeline pipeline;
    private SourceDriver driver;
    private long bytes;
    private double bytesPerS;
    private long bytesAtRate;
    private HostNanos rateAt = new HostNanos(0);

    LineKeeper(int source, SourceInfo info, StreamPipeline pipeline) {
        this.source = source;
        this.info = info;
        this.pipeline = pipeline;
        this.driver =
                switch (info.language()) {
                    case FRAMES -> new ProbeDriver(() -> pipeline.state(source));
                    case TEXT -> SourceDriver.silent();
                    case COMMANDS -> new AdapterDriver();
                };
    }

    /** A driver that goes by what is derived would take a healthy probe for a silent one. */
    void derivedNoMore() {
        if (info.language() == SourceInfo.Language.FRAMES) {
            driver = SourceDriver.silent();
        }
    }

    int source() {
        return source;
    }

    SourceInfo info() {
        return info;
    }

    void opened(HostNanos at) {
        driver.opened(at);
    }

    void heard(Chunk chunk) {
        switch (chunk.kind()) {
            case IN -> {
                bytes += chunk.bytes().length;
                driver.heard(chunk.bytes(), chunk.at());
            }
            case EVENT -> {
                if (StreamPipeline.isBack(chunk)) {
                    driver.opened(chunk.at());
                }
            }
            case OUT, SOURCE, NOTE, WALL_TIME, END -> {}
        }
    }

    /** Takes one press of the device's button, if one waits to be acted on. */
    boolean pressed() {
        return pipeline.state(source).button().take();
    }

    List<byte[]> due(HostNanos now) {
        return driver.due(now);
    }

    boolean awaits(HostNanos now) {
        return driver.awaits(now);
    }

    double untilDueS(HostNanos now) {
        return driver.untilDueS(now);
    }

    List<byte[]> farewell() {
        return driver.farewell();
    }

    RecordStatus.LineStatus status(boolean connected, HostNanos now, String fault) {
        double sinceS = now.secondsAfter(rateAt);
        if (sinceS >= RATE_OVER_S) {
            bytesPerS = (bytes - bytesAtRate) / sinceS;
            bytesAtRate = bytes;
            rateAt = now;
        }
        SourceState state = pipeline.state(source);
        String own = connected ? driver.problem() : info.port() + " is gone; waiting for it";
        String problem = fault.isEmpty() ? own : fault;
        return new RecordStatus.LineStatus(
                info,
                state.name(),
                connected,
                bytes,
                bytesPerS,
                state.rejectedBytes(),
                state.lostSamples(),
                state.frames(),
                problem.isEmpty() ? state.problem() : problem);
    }
}

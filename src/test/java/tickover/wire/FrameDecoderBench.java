package tickover.wire;

import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * How many bytes per second the decoder takes: the score, operations per microsecond, is MB/s.
 *
 * <p>The stream is that of a three-axis 16-bit probe with tach and status. The sink reads every
 * value, so that no part of the decoding can be left out.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(2)
public class FrameDecoderBench {
    private static final int STREAM_BYTES = 1 << 20;

    /** Bytes per call: what a serial port hands over, and a whole read of a recording. */
    @Param({"512", "65536"})
    public int chunkBytes;

    private final FrameDecoder decoder = new FrameDecoder();
    private final SummingSink sink = new SummingSink();
    private byte[] stream;

    /** Makes the stream. */
    @Setup
    public void makeStream() {
        stream = java.util.Arrays.copyOf(WireStreams.probe(1, 5000), STREAM_BYTES);
    }

    /** Decodes the stream once. */
    @Benchmark
    @OperationsPerInvocation(STREAM_BYTES)
    public long decode() {
        for (int at = 0; at < STREAM_BYTES; at += chunkBytes) {
            decoder.feed(stream, at, Math.min(chunkBytes, STREAM_BYTES - at), sink);
        }
        return sink.sum;
    }
}

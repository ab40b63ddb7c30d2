package tickover.session;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Consumer;
import tickover.link.ByteLink;
import tickover.link.LinkException;
import tickover.link.PortInfo;
import tickover.link.SerialLink;
import tickover.link.SerialPorts;
import tickover.wire.FrameDecoder;
import tickover.wire.FrameWriter;
import tickover.wire.StreamSniffer;
import tickover.wire.TextDecoder;

/**
 * Asks serial ports what they are. At each usual speed of a line it first listens, then asks as a
 * host asks a probe, then as one asks a text-command adapter. Ports are asked side by side.
 */
public final class PortSurvey {
    /** The usual speeds, the likely ones first, bits a second. */
    static final List<Integer> SPEEDS_BAUD =
            List.of(115_200, 500_000, 1_000_000, 230_400, 460_800, 921_600, 38_400, 9_600, 57_600);

    /** A board that was restarted by being opened needs so long to say its first words, s. */
    private static final double FIRST_LISTEN_S = 2.2;

    private static final double LISTEN_S = 0.4;
    private static final double ANSWER_S = 0.8;

    private PortSurvey() {}

    /**
     * Lists ports and opens none.
     *
     * @param ports which; empty for all that the system lists
     * @return one answer each, of the kind {@link PortAnswer.Kind#NOT_ASKED}
     */
    public static List<PortAnswer> list(List<String> ports) {
        List<PortAnswer> answers = new ArrayList<>();
        for (Map.Entry<String, String> port : wanted(ports).entrySet()) {
            answers.add(answer(port, PortAnswer.Kind.NOT_ASKED, 0, ""));
        }
        return answers;
    }

    /**
     * Asks ports.
     *
     * @param ports which; empty for all that the system lists
     * @param progress hears what is being done
     * @return one answer each, in the order of the ports
     */
    public static List<PortAnswer> ask(List<String> ports, Consumer<String> progress) {
        Map<String, String> wanted = wanted(ports);
        if (wanted.isEmpty()) {
            return List.of();
        }
        progress.accept("asking " + String.join(", ", wanted.keySet()));
        ExecutorService pool = Executors.newFixedThreadPool(wanted.size());
        try {
            List<Future<PortAnswer>> futures = new ArrayList<>();
            for (Map.Entry<String, String> port : wanted.entrySet()) {
                futures.add(pool.submit(() -> ask(port, SPEEDS_BAUD)));
            }
            List<PortAnswer> answers = new ArrayList<>();
            for (Future<PortAnswer> future : futures) {
                answers.add(future.get());
            }
            return answers;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException("asking the ports was interrupted", e);
        } catch (ExecutionException e) {
            throw new IllegalStateException("asking a port failed", e.getCause());
        } finally {
            pool.shutdownNow();
        }
    }

    /** Asks one port, at one speed if that is known. */
    static PortAnswer ask(String port, int baud) {
        Map.Entry<String, String> wanted = wanted(List.of(port)).entrySet().iterator().next();
        return ask(wanted, baud > 0 ? List.of(baud) : SPEEDS_BAUD);
    }

    /** Paths and what the system says of them: the device key, then a tab, then the description. */
    private static Map<String, String> wanted(List<String> ports) {
        Map<String, String> known = new LinkedHashMap<>();
        for (PortInfo info : SerialPorts.list()) {
            known.put(info.path(), info.deviceKey() + "\t" + info.description());
        }
        if (ports.isEmpty()) {
            return known;
        }
        Map<String, String> wanted = new LinkedHashMap<>();
        for (String port : ports) {
            wanted.put(port, known.getOrDefault(port, port + "\t"));
        }
        return wanted;
    }

    private static PortAnswer answer(
            Map.Entry<String, String> port, PortAnswer.Kind kind, int baud, String text) {
        return answer(port, kind, baud, "", text);
    }

    private static PortAnswer answer(
            Map.Entry<String, String> port,
            PortAnswer.Kind kind,
            int baud,
            String columns,
            String text) {
        String[] said = port.getValue().split("\t", 2);
        return new PortAnswer(
                port.getKey(), kind, baud, said[0], columns, text.isEmpty() ? said[1] : text);
    }

    private static PortAnswer ask(Map.Entry<String, String> port, List<Integer> speeds) {
        double listenS = FIRST_LISTEN_S;
        for (int baud : speeds) {
            try (ByteLink link = SerialLink.open(port.getKey(), baud)) {
                Asked asked = new Asked(link);
                PortAnswer.Kind kind = asked.ask(listenS);
                if (kind.isDevice()) {
                    return answer(port, kind, baud, asked.columns(), asked.words());
                }
            } catch (LinkException e) {
                if (e.reason() == LinkException.Reason.NO_SUCH_SPEED && speeds.size() > 1) {
                    continue;
                }
                return answer(port, PortAnswer.Kind.CLOSED, 0, e.getMessage());
            }
            listenS = LISTEN_S;
        }
        return answer(port, PortAnswer.Kind.NOTHING, 0, "");
    }

    /** One port at one speed. */
    private static final class Asked {
        private final ByteLink link;
        private final StreamSniffer sniffer = new StreamSniffer();
        private final NameFinder names = new NameFinder();
        private final FrameDecoder frames = new FrameDecoder();
        private final TextDecoder text = new TextDecoder();
        private final byte[] buffer = new byte[4096];

        Asked(ByteLink link) {
            this.link = link;
        }

        PortAnswer.Kind ask(double listenS) {
            PortAnswer.Kind kind = listen(listenS);
            if (!kind.isDevice()) {
                link.write(new FrameWriter().separator().identify().take());
                kind = listen(ANSWER_S);
            }
            if (!kind.isDevice()) {
                link.write("\rATI\r".getBytes(StandardCharsets.US_ASCII));
                kind = listen(ANSWER_S);
            }
            if (kind == PortAnswer.Kind.PROBE && names.name().isEmpty()) {
                link.write(new FrameWriter().separator().identify().take());
                listenForName();
            }
            return kind;
        }

        private PortAnswer.Kind listen(double forS) {
            long until = System.nanoTime() + Math.round(forS * 1e9);
            PortAnswer.Kind kind = PortAnswer.Kind.NOTHING;
            while (!kind.isDevice() && System.nanoTime() < until) {
                int count = link.read(buffer);
                frames.feed(buffer, 0, count, names);
                text.feed(buffer, 0, count, names);
                kind =
                        switch (sniffer.feed(buffer, 0, count)) {
                            case PROBE -> PortAnswer.Kind.PROBE;
                            case TEXT_PROBE, TEXT_WITHOUT_HEADER -> PortAnswer.Kind.TEXT_PROBE;
                            case ADAPTER -> PortAnswer.Kind.ADAPTER;
                            case UNKNOWN -> PortAnswer.Kind.NOTHING;
                        };
            }
            return kind;
        }

        private void listenForName() {
            long until = System.nanoTime() + Math.round(ANSWER_S * 1e9);
            while (names.name().isEmpty() && System.nanoTime() < until) {
                frames.feed(buffer, 0, link.read(buffer), names);
            }
        }

        String columns() {
            return names.columns();
        }

        String words() {
            return names.name();
        }
    }
}

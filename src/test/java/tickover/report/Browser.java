package tickover.report;

import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;

/**
 * A browser without a window, which writes down every request that it makes. Its own requests, for
 * news from its maker, are told from those of the page by who is written down to have begun them.
 * The network is out of its reach.
 */
final class Browser implements AutoCloseable {
    private static final List<String> NAMES = List.of("chromium", "chromium-browser");
    private static final int LONGEST_RUN_S = 60;

    /** A port at which nothing listens stands for the whole network. */
    private static final List<String> OPTIONS =
            List.of(
                    "--headless",
                    "--no-sandbox",
                    "--disable-gpu",
                    "--hide-scrollbars",
                    "--no-first-run",
                    "--no-pdf-header-footer",
                    "--proxy-server=127.0.0.1:9",
                    "--proxy-bypass-list=<-loopback>");

    /** What the browser writes where no page began a request. */
    private static final String ITSELF = "not an origin";

    private final Path program;
    private final Path folder;
    private final List<String> asked = new ArrayList<>();

    private Browser(Path program) throws IOException {
        this.program = program;
        this.folder = Files.createTempDirectory("tickover-browser");
    }

    /** Finds a browser, if there is one. */
    static Optional<Browser> find() throws IOException {
        for (String place : System.getenv("PATH").split(java.io.File.pathSeparator, -1)) {
            for (String name : NAMES) {
                Path program = Path.of(place, name);
                if (Files.isExecutable(program)) {
                    return Optional.of(new Browser(program));
                }
            }
        }
        return Optional.empty();
    }

    /** Draws a page. */
    void screenshot(Path page, int width, int height, Path png) throws IOException {
        run(page, "--window-size=" + width + "," + height, "--screenshot=" + png);
    }

    /** Prints a page. */
    void print(Path page, Path pdf) throws IOException {
        run(page, "--print-to-pdf=" + pdf);
    }

    private void run(Path page, String... options) throws IOException {
        Path log = folder.resolve("requests.json");
        List<String> command = new ArrayList<>(List.of(program.toString()));
        command.addAll(OPTIONS);
        command.add("--log-net-log=" + log);
        command.add("--user-data-dir=" + folder.resolve("profile"));
        command.addAll(List.of(options));
        command.add(page.toUri().toString());
        Process process =
                new ProcessBuilder(command)
                        .redirectErrorStream(true)
                        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                        .start();
        try {
            if (!process.waitFor(LONGEST_RUN_S, TimeUnit.SECONDS)) {
                throw new IOException("the browser did not end in " + LONGEST_RUN_S + " s");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted", e);
        } finally {
            process.destroyForcibly();
        }
        note(log);
    }

    private void note(Path log) throws IOException {
        JsonObject all;
        try (Reader reader = Files.newBufferedReader(log)) {
            all = JsonParser.parseReader(reader).getAsJsonObject();
        }
        for (JsonElement event : all.getAsJsonArray("events")) {
            JsonElement found = event.getAsJsonObject().get("params");
            if (found == null || !found.isJsonObject()) {
                continue;
            }
            JsonObject params = found.getAsJsonObject();
            boolean ofPage =
                    params.has("url")
                            && params.has("initiator")
                            && !params.get("initiator").getAsString().equals(ITSELF);
            if (ofPage) {
                asked.add(params.get("url").getAsString());
            }
        }
    }

    /** Addresses that pages asked the network for so far. */
    List<String> asked() {
        return List.copyOf(asked);
    }

    @Override
    public void close() throws IOException {
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.deleteIfExists(file);
            }
        }
    }
}

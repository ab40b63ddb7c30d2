package tickover.store;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.UserPrincipal;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;

/**
 * A PostgreSQL server of this process alone, in a temporary folder and at a port of its own. It
 * ends with the process, however that ends. Where none can be had, tests that need it are skipped.
 */
public final class PostgresServer {
    private static final Path INSTALLED = Path.of("/usr/lib/postgresql");
    private static final String USER = "pool";

    /** Refused to whoever does not say it, as on any real server. */
    public static final String PASSWORD = "overhead-cam";

    private static final int LONGEST_START_S = 30;

    private static final Shared SHARED = new Shared();

    private final int port;
    private final AtomicInteger schemas = new AtomicInteger();

    private PostgresServer(int port) {
        this.port = port;
    }

    /** Started at most once. */
    private static final class Shared {
        private PostgresServer server;
        private String why;

        synchronized PostgresServer get() {
            if (server == null && why == null) {
                try {
                    server = start();
                } catch (IllegalStateException | UncheckedIOException e) {
                    why = e.getMessage();
                    System.err.println("skipped: tests that need PostgreSQL: " + why);
                }
            }
            Assumptions.assumeTrue(server != null, "no PostgreSQL server can be had: " + why);
            return server;
        }
    }

    /** The server; skips the test if there is none. */
    public static PostgresServer get() {
        return SHARED.get();
    }

    /** The address of a fresh schema, with user and password. */
    public String freshAddress() {
        String schema = "s" + schemas.incrementAndGet();
        try (Connection c = DriverManager.getConnection(address("postgres"));
                Statement s = c.createStatement()) {
            s.execute("CREATE SCHEMA " + schema);
        } catch (SQLException e) {
            throw new IllegalStateException(e);
        }
        return address("postgres") + "&currentSchema=" + schema;
    }

    /** The address of a database, which need not exist. */
    public String address(String database) {
        return "jdbc:postgresql://127.0.0.1:"
                + port
                + "/"
                + database
                + "?user="
                + USER
                + "&password="
                + PASSWORD;
    }

    private static PostgresServer start() {
        Path bin =
                programs()
                        .orElseThrow(
                                () ->
                                        new IllegalStateException(
                                                "initdb is not installed (Debian: apt-get install"
                                                        + " postgresql)"));
        try {
            Path dir = Files.createTempDirectory("tickover-server");
            List<String> as = unprivileged(dir);
            Path password = Files.writeString(dir.resolve("password"), PASSWORD + "\n");
            Path data = dir.resolve("data");
            Path said = dir.resolve("said.txt");
            // In an order of words that no byte order has, to see that the log does not follow it.
            List<String> init = new ArrayList<>(as);
            init.addAll(
                    List.of(
                            bin.resolve("initdb").toString(),
                            "--pgdata=" + data,
                            "--username=" + USER,
                            "--pwfile=" + password,
                            "--auth=scram-sha-256",
                            "--encoding=UTF8",
                            "--locale=C.UTF-8",
                            "--no-sync"));
            List<String> words = new ArrayList<>(init);
            words.addAll(List.of("--locale-provider=icu", "--icu-locale=en-US"));
            if (run(words, said) != 0 && (clear(data) || run(init, said) != 0)) {
                throw new IllegalStateException("initdb failed: " + Files.readString(said));
            }
            PostgresServer server = new PostgresServer(freePort());
            server.run(as, bin, data, said, dir);
            return server;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void run(List<String> as, Path bin, Path data, Path said, Path dir) throws IOException {
        // The shell ends the server when its input ends, so when this process is gone.
        List<String> command = new ArrayList<>(as);
        command.addAll(
                List.of(
                        "sh",
                        "-c",
                        "\"$@\" </dev/null & server=$!; cat >/dev/null; kill -INT $server; wait",
                        "sh",
                        bin.resolve("postgres").toString(),
                        "-D",
                        data.toString(),
                        "-p",
                        Integer.toString(port)));
        for (String setting :
                List.of(
                        "listen_addresses=127.0.0.1",
                        "unix_socket_directories=",
                        "fsync=off",
                        "synchronous_commit=off",
                        "full_page_writes=off",
                        "shared_buffers=32MB",
                        "autovacuum=off")) {
            command.addAll(List.of("-c", setting));
        }
        Process shell =
                new ProcessBuilder(command)
                        .redirectErrorStream(true)
                        .redirectOutput(said.toFile())
                        .start();
        Runtime.getRuntime().addShutdownHook(new Thread(() -> end(shell, dir)));
        long latest = System.nanoTime() + TimeUnit.SECONDS.toNanos(LONGEST_START_S);
        while (true) {
            try {
                DriverManager.getConnection(address("postgres")).close();
                return;
            } catch (SQLException e) {
                if (!shell.isAlive() || System.nanoTime() > latest) {
                    throw new IllegalStateException(
                            "the server does not start: " + Files.readString(said), e);
                }
            }
            pause();
        }
    }

    private static void end(Process shell, Path dir) {
        try (OutputStream input = shell.getOutputStream()) {
            input.flush();
        } catch (IOException e) {
            shell.destroy();
        }
        try {
            if (!shell.waitFor(10, TimeUnit.SECONDS)) {
                shell.destroyForcibly();
            }
            clear(dir);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** Removes a folder and says that it could not. */
    private static boolean clear(Path dir) {
        try (Stream<Path> all = Files.walk(dir)) {
            for (Path p : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.deleteIfExists(p);
            }
            return false;
        } catch (IOException e) {
            return true;
        }
    }

    private static void pause() {
        try {
            TimeUnit.MILLISECONDS.sleep(20);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    private static int run(List<String> command, Path said) throws IOException {
        try {
            return new ProcessBuilder(command)
                    .redirectErrorStream(true)
                    .redirectOutput(said.toFile())
                    .start()
                    .waitFor();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    private static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }

    /** The newest that is installed. */
    private static Optional<Path> programs() {
        if (!Files.isDirectory(INSTALLED)) {
            return Optional.empty();
        }
        try (Stream<Path> versions = Files.list(INSTALLED)) {
            return versions.map(v -> v.resolve("bin"))
                    .filter(b -> Files.isExecutable(b.resolve("initdb")))
                    .filter(b -> b.getParent().getFileName().toString().matches("\\d+"))
                    .max(
                            Comparator.comparingInt(
                                    b -> Integer.parseInt(b.getParent().getFileName().toString())));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The server refuses to run as root; its package brings a user for it. */
    private static List<String> unprivileged(Path dir) throws IOException {
        if (!System.getProperty("user.name").equals("root")) {
            return List.of();
        }
        UserPrincipal postgres;
        try {
            postgres =
                    dir.getFileSystem()
                            .getUserPrincipalLookupService()
                            .lookupPrincipalByName("postgres");
        } catch (IOException e) {
            throw new IllegalStateException("there is no user postgres to run it as", e);
        }
        Files.getFileAttributeView(dir, PosixFileAttributeView.class, LinkOption.NOFOLLOW_LINKS)
                .setOwner(postgres);
        return List.of("setpriv", "--reuid=postgres", "--regid=postgres", "--clear-groups");
    }

    /** What the server's own words are worth in a failed test. */
    @Override
    public String toString() {
        return "PostgreSQL at port " + port + ", " + StandardCharsets.UTF_8;
    }
}

package tickover.link;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import tickover.unit.HostNanos;

/**
 * Writes a recording, chunk by chunk, to the end of a new file.
 *
 * <p>Each chunk is handed to the operating system before {@link #append} returns, so it survives
 * the end of this program, however sudden. {@link #forceIfDue} makes it survive a loss of power.
 *
 * <p>Thread: any. Forcing does not hold up appending.
 */
public final class RecordingWriter implements AutoCloseable {
    /**
     * Half of the second that may be lost, so that an owner who asks five times a second keeps it.
     */
    private static final double FORCE_EVERY_S = 0.5;

    private final Path path;
    private final int tag;

    /** Not a channel: an interrupted thread would close that, and with it the recording. */
    private final RandomAccessFile file;

    private final Map<Integer, long[]> inOutBytes = new TreeMap<>();
    private long endBytes;
    private int chunks;
    private HostNanos latest;
    private HostNanos forcedAt;
    private boolean dirty;
    private boolean closed;

    /** What made writing fail; null while nothing did. */
    private LinkException failure;

    private RecordingWriter(Path path, RandomAccessFile file, RecordingHeader header) {
        this.path = path;
        this.file = file;
        this.tag = RecordingFormat.tag(header.id());
        this.latest = header.startedAt();
        this.forcedAt = header.startedAt();
    }

    /**
     * Begins a recording.
     *
     * @param path a file that does not exist, in a folder that does
     * @param header what it says of itself
     * @return its writer
     * @throws LinkException if the file exists or cannot be made
     */
    public static RecordingWriter create(Path path, RecordingHeader header) {
        Objects.requireNonNull(path, "path");
        byte[] head = RecordingFormat.header(header);
        try {
            Files.createFile(path);
        } catch (IOException e) {
            throw notMade(path, e);
        }
        try {
            RandomAccessFile file = new RandomAccessFile(path.toFile(), "rw");
            RecordingWriter writer = new RecordingWriter(path, file, header);
            try {
                writer.write(head);
                file.getFD().sync();
            } catch (LinkException | IOException e) {
                file.close();
                throw e;
            }
            forceName(path);
            return writer;
        } catch (IOException e) {
            throw notMade(path, e);
        }
    }

    private static LinkException notMade(Path path, IOException e) {
        if (e instanceof FileAlreadyExistsException) {
            return new LinkException(
                    LinkException.Reason.BAD_RECORDING,
                    path
                            + " exists already, and a recording never overwrites; choose another"
                            + " name.",
                    e);
        }
        if (e instanceof NoSuchFileException) {
            return new LinkException(
                    LinkException.Reason.BAD_RECORDING,
                    "The folder of " + path + " does not exist; make it first.",
                    e);
        }
        if (e instanceof AccessDeniedException) {
            return new LinkException(
                    LinkException.Reason.NO_PERMISSION,
                    path + " may not be written; choose a folder that is yours.",
                    e);
        }
        return DiskTrouble.of(path, e, RecordingFormat.HEADER_BYTES);
    }

    /** The file's name is in its folder, which has to reach the disk too. */
    private static void forceName(Path path) {
        try (FileChannel folder =
                FileChannel.open(path.toAbsolutePath().getParent(), StandardOpenOption.READ)) {
            folder.force(true);
        } catch (IOException e) {
            // Windows opens no folders, and writes names through by itself.
            return;
        }
    }

    /**
     * Adds a chunk.
     *
     * @param chunk what to keep; at most 1 MiB, and not {@link Chunk.Kind#END}, which closing
     *     writes
     * @throws LinkException if the disk is full or fails, and at every call after that. The file
     *     then ends with the last chunk that went in whole.
     */
    public synchronized void append(Chunk chunk) {
        if (chunk.kind() == Chunk.Kind.END) {
            throw new IllegalArgumentException("kind=END, need any other; close() writes it");
        }
        if (chunk.bytes().length > RecordingFormat.LONGEST_PAYLOAD_BYTES) {
            throw new IllegalArgumentException(
                    "bytes.length="
                            + chunk.bytes().length
                            + ", need at most "
                            + RecordingFormat.LONGEST_PAYLOAD_BYTES);
        }
        if (closed) {
            throw new IllegalStateException("closed=true, need an open recording");
        }
        add(chunk);
    }

    private void add(Chunk chunk) {
        if (failure != null) {
            throw failure;
        }
        write(RecordingFormat.chunk(chunk, tag, chunks));
        chunks++;
        dirty = true;
        if (chunk.at().compareTo(latest) > 0) {
            latest = chunk.at();
        }
        if (chunk.kind() == Chunk.Kind.IN || chunk.kind() == Chunk.Kind.OUT) {
            int way = chunk.kind() == Chunk.Kind.IN ? 0 : 1;
            inOutBytes.computeIfAbsent(chunk.source(), s -> new long[2])[way] +=
                    chunk.bytes().length;
        }
    }

    private void write(byte[] bytes) {
        try {
            file.write(bytes);
            endBytes += bytes.length;
        } catch (IOException e) {
            failure = DiskTrouble.of(path, e, bytes.length);
            cutTornChunk(e);
            throw failure;
        }
    }

    private void cutTornChunk(IOException why) {
        try {
            file.setLength(endBytes);
        } catch (IOException e) {
            // A reader skips a torn chunk at the end, so the recording is none the worse.
            why.addSuppressed(e);
        }
    }

    /**
     * Makes what was appended survive a loss of power, if that was last done half a second ago or
     * more. Called a few times a second, it keeps the loss below one second.
     *
     * @param now this moment
     * @return whether it was done
     * @throws LinkException if the disk fails
     */
    public boolean forceIfDue(HostNanos now) {
        synchronized (this) {
            if (failure != null) {
                throw failure;
            }
            if (closed || !dirty || !(now.secondsAfter(forcedAt) >= FORCE_EVERY_S)) {
                return false;
            }
            forcedAt = now;
            dirty = false;
        }
        force();
        return true;
    }

    /** Outside the lock: a slow memory stick takes a second for it. */
    private void force() {
        try {
            file.getFD().sync();
        } catch (IOException e) {
            synchronized (this) {
                if (closed) {
                    return;
                }
                failure = DiskTrouble.of(path, e, 0);
                throw failure;
            }
        }
    }

    /**
     * Returns how long the file is.
     *
     * @return bytes, without anything torn
     */
    public synchronized long fileBytes() {
        return endBytes;
    }

    /**
     * Writes the totals, forces everything to the disk and closes the file. After a failure it only
     * closes. Closing twice is harmless.
     *
     * @throws LinkException if the disk is full or fails, having closed the file
     */
    @Override
    public synchronized void close() {
        if (closed) {
            return;
        }
        try (RandomAccessFile closing = file) {
            closed = true;
            if (failure == null) {
                byte[] totals = totals().getBytes(StandardCharsets.UTF_8);
                add(new Chunk(Chunk.Kind.END, 0, latest, totals));
                closing.getFD().sync();
            }
        } catch (IOException e) {
            throw DiskTrouble.of(path, e, 0);
        }
    }

    private String totals() {
        StringBuilder json = new StringBuilder();
        json.append("{\"chunks\":").append(Integer.toUnsignedLong(chunks)).append(",\"sources\":[");
        String comma = "";
        for (Map.Entry<Integer, long[]> source : inOutBytes.entrySet()) {
            json.append(comma).append("{\"source\":").append(source.getKey());
            json.append(",\"inBytes\":").append(source.getValue()[0]);
            json.append(",\"outBytes\":").append(source.getValue()[1]).append('}');
            comma = ",";
        }
        return json.append("]}").toString();
    }
}

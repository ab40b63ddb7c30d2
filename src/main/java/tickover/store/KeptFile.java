package tickover.store;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.UUID;

/**
 * A file of a visit and what it held.
 *
 * @param name without any folder
 * @param sha256 of its bytes, 64 lower-case hexadecimal digits
 * @param sizeBytes its length
 * @param named true if the visit names it, false if it only lay in the folder
 */
record KeptFile(String name, String sha256, long sizeBytes, boolean named) {
    private static final int BUFFER_BYTES = 1 << 16;

    static KeptFile of(Path path, boolean named) {
        String name = path.getFileName().toString();
        try {
            return of(Files.newInputStream(path), new KeptFile(name, "", 0, named));
        } catch (IOException e) {
            throw new VisitFolderException(name, "cannot be read: " + Wording.reason(e), e);
        }
    }

    /** What a file of the same name holds now. Closes the stream. */
    static KeptFile of(InputStream bytes, KeptFile like) throws IOException {
        MessageDigest digest = newDigest();
        long size = 0;
        try (bytes) {
            byte[] buffer = new byte[BUFFER_BYTES];
            for (int n = bytes.read(buffer); n >= 0; n = bytes.read(buffer)) {
                digest.update(buffer, 0, n);
                size += n;
            }
        }
        return new KeptFile(
                like.name(), HexFormat.of().formatHex(digest.digest()), size, like.named());
    }

    /** One digest over names and contents of the files that the visit names, in any order. */
    static byte[] contentDigest(List<KeptFile> files) {
        MessageDigest digest = newDigest();
        files.stream()
                .filter(KeptFile::named)
                .map(f -> f.name() + "\n" + f.sha256() + "\n")
                .sorted()
                .forEach(line -> digest.update(line.getBytes(StandardCharsets.UTF_8)));
        return digest.digest();
    }

    /** A UUID that the same files always give. */
    static UUID contentId(List<KeptFile> files) {
        return UUID.nameUUIDFromBytes(contentDigest(files));
    }

    static MessageDigest newDigest() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}

package tickover.store;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/** Text files of a visit folder: UTF-8, with or without a byte-order mark. */
final class FolderText {
    private static final char BYTE_ORDER_MARK = '\uFEFF';

    private FolderText() {}

    static String read(String file, Path path, int limitBytes) {
        byte[] bytes;
        try {
            long size = Files.size(path);
            if (size > limitBytes) {
                throw new VisitFolderException(
                        file, "is " + size + " bytes long, at most " + limitBytes + " make sense");
            }
            bytes = Files.readAllBytes(path);
        } catch (IOException e) {
            throw new VisitFolderException(file, "cannot be read: " + Wording.reason(e), e);
        }
        return decode(file, bytes);
    }

    private static String decode(String file, byte[] bytes) {
        ByteBuffer in = ByteBuffer.wrap(bytes);
        CharBuffer out = CharBuffer.allocate(bytes.length);
        CharsetDecoder decoder =
                StandardCharsets.UTF_8
                        .newDecoder()
                        .onMalformedInput(CodingErrorAction.REPORT)
                        .onUnmappableCharacter(CodingErrorAction.REPORT);
        var result = decoder.decode(in, out, true);
        if (result.isError()) {
            int line = 1;
            for (int i = 0; i < in.position(); i++) {
                line += bytes[i] == '\n' ? 1 : 0;
            }
            throw new VisitFolderException(
                    file + " line " + line,
                    "is not UTF-8; save the file as UTF-8",
                    new CharacterCodingException());
        }
        String text = out.flip().toString();
        return text.isEmpty() || text.charAt(0) != BYTE_ORDER_MARK ? text : text.substring(1);
    }
}

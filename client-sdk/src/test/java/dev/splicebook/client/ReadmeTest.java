package dev.splicebook.client;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringWriter;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import javax.tools.JavaCompiler;
import javax.tools.JavaFileObject;
import javax.tools.SimpleJavaFileObject;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the README shows compiles. */
class ReadmeTest {

    private static final Pattern JAVA = Pattern.compile("```java\n(.*?)```", Pattern.DOTALL);

    /** What a piece of code may use that is no whole program. */
    private static final String PIECE = """
            import dev.splicebook.client.*;
            import java.nio.file.Path;

            class Piece%d {
                void run(Splicebook client, Document map) throws Exception {
                    %s
                }
            }
            """;

    @TempDir
    private Path folder;

    @Test
    void showsCodeThatCompiles() throws IOException {
        List<String> blocks = JAVA.matcher(Files.readString(Path.of("README.md")))
                .results()
                .map(found -> found.group(1))
                .toList();
        assertThat(blocks).hasSizeGreaterThanOrEqualTo(4);

        for (int at = 0; at < blocks.size(); at++) {
            String block = blocks.get(at);
            boolean isProgram = block.contains("public class FirstCheck");
            String said =
                    compile(isProgram ? "FirstCheck" : "Piece" + at, isProgram ? block : PIECE.formatted(at, block));
            assertThat(said).as(block).isEmpty();
        }
    }

    private String compile(String name, String code) {
        JavaCompiler compiler = ToolProvider.getSystemJavaCompiler();
        StringWriter said = new StringWriter();
        compiler.getTask(
                        said,
                        null,
                        null,
                        List.of("-proc:none", "-cp", System.getProperty("java.class.path"), "-d", folder.toString()),
                        null,
                        List.of(
                                new SimpleJavaFileObject(
                                        URI.create("string:///" + name + ".java"), JavaFileObject.Kind.SOURCE) {
                                    @Override
                                    public CharSequence getCharContent(boolean ignoreEncodingErrors) {
                                        return code;
                                    }
                                }))
                .call();
        return said.toString();
    }
}

package dev.splicebook.web;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.core.ResolvableType;
import org.springframework.http.HttpInputMessage;
import org.springframework.http.HttpOutputMessage;
import org.springframework.http.MediaType;
import org.springframework.http.converter.HttpMessageNotWritableException;
import org.springframework.http.converter.SmartHttpMessageConverter;

/** Lets controllers take records of this service by a plain {@code @RequestBody}, read by {@link StrictReader}. */
final class StrictBodyConverter implements SmartHttpMessageConverter<Object> {

    @Override
    public boolean canRead(ResolvableType type, @Nullable MediaType mediaType) {
        return mediaType != null && (isJson(mediaType) || isWrittenInJson(mediaType)) && StrictReader.reads(type);
    }

    private static boolean isJson(MediaType type) {
        return type.getType().equals("application") && type.getSubtype().equals("json");
    }

    /** Like a merge patch or a problem. The converters that come with the framework would read one as if it were the thing itself. */
    private static boolean isWrittenInJson(MediaType type) {
        return "json".equals(type.getSubtypeSuffix());
    }

    @Override
    public Object read(ResolvableType type, HttpInputMessage message, @Nullable Map<String, Object> hints)
            throws IOException {
        MediaType sent = message.getHeaders().getContentType();
        if (sent != null && !isJson(sent)) {
            throw Problems.unsupportedMediaType(Words.shortened(sent.toString()), MediaType.APPLICATION_JSON_VALUE);
        }
        return StrictReader.readType(message.getBody().readAllBytes(), type.getType());
    }

    @Override
    public boolean canWrite(ResolvableType type, Class<?> valueClass, @Nullable MediaType mediaType) {
        return false;
    }

    @Override
    public void write(
            Object value,
            ResolvableType type,
            @Nullable MediaType mediaType,
            HttpOutputMessage message,
            @Nullable Map<String, Object> hints) {
        throw new HttpMessageNotWritableException("bodies are only read here");
    }

    @Override
    public List<MediaType> getSupportedMediaTypes() {
        return List.of(MediaType.APPLICATION_JSON);
    }
}

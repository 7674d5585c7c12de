package dev.splicebook.web;

/**
 * Who asks: every service method that reads or writes a firm's rows takes one, and controllers get it as an argument.
 *
 * @param firm whose rows may be read and written
 * @param shop which of the firm's shops asks
 * @param key with which key
 */
public record Caller(FirmId firm, ShopId shop, KeyId key) {}
